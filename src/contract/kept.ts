import type { z } from "zod";
import type { Decision, Scenario } from "../kitchen/index.js";
import { CostingError, keepLedger, LedgerError } from "../ledger/index.js";
import { inFileOrder, type Problem, type Source, writtenAt } from "../reading/index.js";
import { composeDecision } from "./compose.js";
import { decisionOf, PlanMismatch, withStockOf } from "./decision-of.js";
import { pointer, readJson } from "./json-text.js";
import { hasPlan, type PlanJson, planSchema } from "./plan.js";
import { knownAs } from "./plan-hash.js";
import { type Fault, faultsOf } from "./sound.js";
import { words } from "./words.js";

/** What a plan kept by any version of the program holds; other fields were added since. */
const keptSchema = planSchema.partial().required({
  schema: true,
  scenario: true,
  aim: true,
  outcome: true,
  stages: true,
  purchases: true,
  onHand: true,
  cuts: true,
  preps: true,
  goings: true,
  dishes: true,
  leftovers: true,
  warnings: true,
  reasons: true,
});

type Read = { readonly plan: PlanJson } | { readonly faults: readonly Fault[] };

/**
 * A plan as it was kept in a file, with the fields that were added to the contract since; or whatever is wrong with it,
 * with what to do about it.
 */
export function keptPlan(
  source: Source,
  scenario: Scenario,
  remedy: string,
): { readonly plan: PlanJson } | { readonly problems: Problem[] } {
  return planIn(source, remedy, (json) => keptIn(json, scenario));
}

/** A plan as this version prints it, of whatever scenario; or whatever is wrong with it. */
export function readPlan(
  source: Source,
  remedy: string,
): { readonly plan: PlanJson } | { readonly problems: Problem[] } {
  return planIn(source, remedy, (json) => {
    const read = planSchema.safeParse(json, UNSAID);
    if (!read.success) return { faults: schemaFaults(read.error, json) };
    const faults = plannedFaults(read.data, faultsOf(read.data));
    return faults.length > 0 ? { faults } : { plan: read.data };
  });
}

function planIn(
  source: Source,
  remedy: string,
  read: (json: unknown) => Read,
): { readonly plan: PlanJson } | { readonly problems: Problem[] } {
  const text = readJson(source);
  if ("problem" in text) return { problems: [{ ...text.problem, remedy }] };
  const found = read(text.json);
  if ("plan" in found) return found;
  const positionOf = text.places(found.faults.map(({ path }) => path));
  const problems = found.faults.map(({ path, code, what }): Problem => {
    const at = pointer(path);
    return { ...positionOf(path), code, what: at === "" ? what : `${at}: ${what}`, remedy };
  });
  return { problems: problems.sort(inFileOrder) };
}

function keptIn(json: unknown, scenario: Scenario): Read {
  const kept = keptSchema.safeParse(json, UNSAID);
  if (!kept.success) return { faults: schemaFaults(kept.error, json) };
  const faults = plannedFaults(kept.data, faultsOf(kept.data));
  if (faults.length > 0) return { faults };
  const currency = kept.data.money?.currency ?? scenario.currency;
  if (currency !== scenario.currency)
    return {
      faults: [{ path: ["money", "currency"], ...words.otherCurrency(currency, scenario.currency) }],
    };
  try {
    const decision = decisionOf(kept.data, scenario);
    const then = withStockOf(kept.data, scenario);
    const whole = planSchema.safeParse(json, UNSAID);
    if (whole.success) {
      mustBalance(then, decision);
      return { plan: knownAs(whole.data, json) };
    }
    const anew = composeDecision(then, decision, keepLedger(then, decision));
    const stated = Object.fromEntries(Object.entries(kept.data).filter(([, value]) => value !== undefined));
    return { plan: knownAs(planSchema.parse({ ...anew, ...stated }), json) };
  } catch (error) {
    const isOfPlan =
      error instanceof PlanMismatch || error instanceof LedgerError || error instanceof CostingError;
    if (!isOfPlan) throw error;
    return { faults: [{ path: [], ...words.impossible(error.message) }] };
  }
}

/** Prices may have changed so that they do not fit the costing method any more: the plan was kept before. */
function mustBalance(scenario: Scenario, decision: Decision): void {
  try {
    keepLedger(scenario, decision);
  } catch (error) {
    if (!(error instanceof CostingError)) throw error;
  }
}

/** A file that says that there is no plan has no figures to check. */
function plannedFaults({ outcome }: Pick<PlanJson, "outcome">, faults: Fault[]): Fault[] {
  return hasPlan({ outcome }) ? faults : [{ path: ["outcome", "kind"], ...words.noPlan(outcome.kind) }];
}

/** What the schema has no words of its own for says nothing. */
const UNSAID = { error: () => "" };

/** What the schema says, in words. */
function schemaFaults(error: z.ZodError, json: unknown): Fault[] {
  return error.issues.map((issue) => {
    const path = issue.path.map((step) => (typeof step === "number" ? step : String(step)));
    const isMissing = writtenAt(json, path) === undefined && path.length > 0;
    return { path, ...(isMissing ? words.missingField() : wordsOf(issue)) };
  });
}

function wordsOf(issue: z.core.$ZodIssue) {
  if (issue.code === "invalid_value") return words.noneOf(issue.values.map(String));
  if (issue.message !== "") return words.notAsDescribed(issue.message);
  return issue.code === "invalid_type" ? words.wrongKind(issue.expected) : words.unreadable();
}
