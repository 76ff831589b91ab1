import { verifyAnew } from "../allocation/index.js";
import {
  composeDecision,
  words as contractWords,
  decisionOf,
  hasPlan,
  type PlanJson,
  PlanMismatch,
  withStockOf,
} from "../contract/index.js";
import {
  buyableBefore,
  type ChangesFrom,
  type Complain,
  changesFrom,
  pastOf,
  restOf,
  wholeOf,
  withCovers,
} from "../insight/index.js";
import { type Decision, type HappenedFile, readHappened, type Scenario } from "../kitchen/index.js";
import { aimFigure, aimValuesOf, costsShown, keepLedger } from "../ledger/index.js";
import type { Decimal } from "../quantity/index.js";
import { inFileOrder, type Problem, problemOf, type Source } from "../reading/index.js";
import { checkSafety } from "../safety/index.js";
import { type Planned, type PlanOptions, planScenario } from "./plan.js";

/** A plan made again on the day: what was done stands, the rest is planned anew. */
export interface Replanned {
  /** Past and future as one plan, which balances; null where there is none for the rest. */
  readonly plan: PlanJson | null;
  /** The scenario as it now is. */
  readonly scenario: Scenario;
  /** The rest as it was planned, on what is left. */
  readonly rest: Planned;
  /** Dishes whose cost by the whole ledger is above their ceiling: what went before has made them dearer. */
  readonly overCeiling: readonly string[];
  /** What is done otherwise than in the plan kept. */
  readonly changes: ChangesFrom;
}

/**
 * Plans the rest of a kept plan anew after what happened: what is bought, cut, worked and cooked before the service
 * named stands as it was or as it was weighed. Null, with every problem, where the file cannot be read, names what
 * the plan does not hold, or tells what cannot have been. Past and future together are checked against the scenario as
 * any plan is; where they fall short that is our fault, and an Error.
 */
export async function replan(
  kept: { readonly plan: PlanJson; readonly file: string },
  now: Scenario,
  source: Source,
  options: PlanOptions,
): Promise<{ replanned: Replanned | null; problems: readonly Problem[] }> {
  const read = readHappened(source);
  if (read.value === null) return { replanned: null, problems: read.problems };
  const problems = [...read.problems];
  const complain: Complain = (path, text) => {
    const position =
      path.length > 1 && typeof path.at(-1) === "number" ? read.positionOf(path) : read.keyPositionOf(path);
    problems.push({ ...position, ...text });
  };
  const found = pastFrom(kept, now, read.value, complain);
  if ("what" in found) return { replanned: null, problems: [...problems, found] };
  const { past, scenario } = found;
  if (past === null || problems.length > 0) return { replanned: null, problems: problems.sort(inFileOrder) };
  const buyable = buyableBefore(past.before, decisionOf(kept.plan, now), scenario, read.value);
  const rest = await planScenario(restOf(past, scenario, buyable), options);
  const none = { plan: null, scenario, overCeiling: [], changes: { plan: [], goings: [] } };
  const stands = past.isAsPlanned && isSame(scenario, withStockOf(kept.plan, now));
  if (!hasPlan(rest.plan))
    return { replanned: { ...none, rest, plan: stands ? kept.plan : null }, problems: [] };
  const anew = wholeOf(past, decisionOf(rest.plan, rest.scenario), scenario);
  const faults = verifyAnew(anew, scenario, past.before);
  if (faults.length > 0) throw new Error(`the rest falls short beside what was done: ${faults.join("; ")}`);
  const decision = stands ? better(decisionOf(kept.plan, now), anew, scenario) : anew;
  const ledger = keepLedger(scenario, decision);
  const { warnings } = checkSafety(scenario);
  // How good it is known to be is known of the rest alone: what was done is not weighed again.
  const plan = { ...rest.plan, ...composeDecision(scenario, decision, ledger), warnings };
  const overCeiling = costsShown(scenario, decision, ledger).map(({ dish }) => dish);
  const changes = changesFrom(past.before, kept.plan, plan, scenario);
  return { replanned: { plan, scenario, rest, overCeiling, changes }, problems: [] };
}

function pastFrom(
  { plan, file }: { readonly plan: PlanJson; readonly file: string },
  now: Scenario,
  happened: HappenedFile,
  complain: Complain,
): { past: ReturnType<typeof pastOf>; scenario: Scenario } | Problem {
  try {
    const scenario = withCovers(withStockOf(plan, now), happened);
    return { past: pastOf(decisionOf(plan, now), scenario, happened, complain), scenario };
  } catch (error) {
    if (!(error instanceof PlanMismatch)) throw error;
    return problemOf(file, contractWords.ofAnotherScenario(error.message));
  }
}

function isSame(one: Scenario, other: Scenario): boolean {
  return one.services.every(({ covers }, index) => covers === other.services[index]?.covers);
}

/** The first, where the second has not less of the aim: what a rounded plan uses to the gram is not found again. */
function better(first: Decision, second: Decision, scenario: Scenario): Decision {
  const aimOf = (decision: Decision): Decimal =>
    aimFigure(scenario, decision, aimValuesOf(scenario, decision, keepLedger(scenario, decision)));
  return aimOf(second).lt(aimOf(first)) ? second : first;
}
