import {
  buildModel,
  decide,
  type Fault,
  leastLotCosts,
  lotKey,
  type Outcome,
  type PlanModel,
  type PlanPoint,
  PROOF_GAP,
  relativeGap,
  type Solved,
  type Staged,
  type StageResult,
  type Tightening,
  verifyDecision,
} from "../allocation/index.js";
import type { Decision, Scenario } from "../kitchen/index.js";
import { type CostsShown, costsShown, keepLedger, type Ledger } from "../ledger/index.js";
import { toCurrency, toKilograms } from "../quantity/index.js";

/** A plan that stands: rounded, checked and balanced, every dish within its ceiling. Or why there is none. */
export type Settled =
  | {
      readonly kind: "plan";
      readonly first: Solved;
      readonly stages: readonly StageResult[];
      readonly decision: Decision;
      readonly ledger: Ledger;
    }
  | { readonly kind: "none"; readonly outcome: Outcome };

/** Ceilings are judged on the ledger; so often is a plan over one of them tightened and solved again. */
const MOST_TIGHTENINGS = 6;
/** In the first rounds lots are only charged what they were shown to cost; then their cost is held. */
const MOST_CHARGED = 2;
/** A little more than the excess, so that rounding to the scale does not bring it back. */
const TIGHTER = 1.02;

/**
 * Builds the model, has it solved, rounds the point to whole portions and grams, checks that against the
 * scenario, keeps the ledger, and tightens until no dish is over its ceiling. `solveModel` is told the seconds that
 * building took. Throws a CostingError where the costing method cannot be applied.
 */
export async function settle(
  scenario: Scenario,
  solveModel: (model: PlanModel, built: number) => Promise<Staged>,
): Promise<Settled> {
  let tightenings: readonly Tightening[] = [];
  let shown: readonly CostsShown[] = [];
  let proved: Solved | null = null;
  for (let round = 0; ; round++) {
    const began = performance.now();
    const model = buildModel(scenario, tightenings);
    const staged = await solveModel(model, (performance.now() - began) / 1000);
    if (staged.kind === "none") {
      if (proved === null) return { kind: "none", outcome: staged.first };
      // Charging what an earlier plan paid can ask too much where its lots could cost less: then they are made to.
      if (round >= MOST_TIGHTENINGS || tightenings.every(({ held }) => held)) {
        return { kind: "none", outcome: overItsCeiling(staged.first) };
      }
      tightenings = held(scenario, tightenings, shown);
      continue;
    }
    const { first } = staged;
    proved ??= first;
    const judged = judgedWithin(scenario, staged);
    if (judged.kind === "faulty") {
      const faults = judged.faults.join("; ");
      return { kind: "none", outcome: failed(first, `the rounded plan falls short: ${faults}`) };
    }
    const { decision, ledger, stages } = judged;
    shown = judged.shown;
    if (shown.length === 0) return { kind: "plan", ...provedBy(proved, first, stages), decision, ledger };
    if (round === MOST_TIGHTENINGS) return { kind: "none", outcome: overItsCeiling(first) };
    const asCharged = charged(tightenings, shown);
    const tighter =
      round < MOST_CHARGED && !sameAs(tightenings, asCharged)
        ? asCharged
        : held(scenario, tightenings, shown);
    if (sameAs(tightenings, tighter)) return { kind: "none", outcome: overItsCeiling(first) };
    tightenings = tighter;
  }
}

type Judged =
  | { readonly kind: "faulty"; readonly faults: readonly Fault[] }
  | {
      readonly kind: "whole";
      readonly decision: Decision;
      readonly ledger: Ledger;
      readonly shown: readonly CostsShown[];
      readonly stages: readonly StageResult[];
    };

/** The plan rounded and judged by the ledger. Where the freshest does not stand there, the one before it is taken. */
function judgedWithin(scenario: Scenario, staged: Extract<Staged, { kind: "planned" }>): Judged {
  const fresh = judged(scenario, staged, staged.stages);
  if (staged.before === null || (fresh.kind === "whole" && fresh.shown.length === 0)) return fresh;
  const before = judged(
    scenario,
    staged.before,
    staged.stages.filter(({ aim }) => aim !== "freshest"),
  );
  return before.kind === "whole" ? before : fresh;
}

function judged(scenario: Scenario, { plan, point }: PlanPoint, stages: readonly StageResult[]): Judged {
  const decision = decide(plan, point);
  const faults = verifyDecision(decision, scenario);
  if (faults.length > 0) return { kind: "faulty", faults };
  const ledger = keepLedger(scenario, decision);
  return { kind: "whole", decision, ledger, shown: costsShown(scenario, decision, ledger), stages };
}

/** Tightening forbids more than the scenario does, so only the bound proved before it says how good a plan is. */
function provedBy(
  { bound }: Solved,
  first: Solved,
  [stage, ...later]: readonly StageResult[],
): Pick<Extract<Settled, { kind: "plan" }>, "first" | "stages"> {
  if (bound === first.bound || stage === undefined)
    return { first, stages: stage === undefined ? [] : [stage, ...later] };
  const gap = relativeGap(first.objective, bound);
  const isProved = gap <= PROOF_GAP;
  const kind = isProved ? "optimal" : "feasible";
  const stoppedBy = isProved ? null : (first.stoppedBy ?? "a ceiling, which the ledger judges");
  return { first: { ...first, kind, bound, gap, stoppedBy }, stages: [{ ...stage, bound, gap }, ...later] };
}

/** Charges the dishes over their ceilings what the ledger charged them. */
function charged(known: readonly Tightening[], shown: readonly CostsShown[]): Tightening[] {
  const fresh = shown.flatMap(({ dish, service, goings }) =>
    goings
      .filter(({ weight }) => weight > 0n)
      .map((going) => ({ ...costOf(going), dish, service, held: false })),
  );
  return replaced(known, fresh);
}

/**
 * Holds the lots of the dishes over their ceilings to an average cost between the least they can have and what they
 * were shown to, so far down that the dish as cooked would keep to its ceiling.
 */
function held(scenario: Scenario, known: readonly Tightening[], shown: readonly CostsShown[]): Tightening[] {
  const least = leastLotCosts(scenario);
  const fresh = shown.flatMap(({ dish, service, excess, goings }) => {
    const paid = goings
      .filter(({ weight }) => weight > 0n)
      .map((going) => ({ ...costOf(going), kilograms: toKilograms(going.weight).toNumber() }));
    const above = paid.reduce(
      (sum, { lot, perKilogram, kilograms }) => sum + kilograms * Math.max(0, perKilogram - least(lot)),
      0,
    );
    const kept = above === 0 ? 0 : Math.max(0, 1 - (TIGHTER * toCurrency(excess).toNumber()) / above);
    return paid.map(({ lot, perKilogram }) => {
      const floor = least(lot);
      return { lot, dish, service, perKilogram: floor + kept * Math.max(0, perKilogram - floor), held: true };
    });
  });
  return replaced(known, fresh);
}

function costOf({
  lot,
  weight,
  money,
}: CostsShown["goings"][number]): Pick<Tightening, "lot" | "perKilogram"> {
  return { lot, perKilogram: toCurrency(money).div(toKilograms(weight)).toNumber() };
}

function replaced(known: readonly Tightening[], fresh: readonly Tightening[]): Tightening[] {
  const keyOf = ({ lot, dish, service }: Tightening): string => `${lotKey(lot)} | ${dish} | ${service}`;
  const keys = new Set(fresh.map(keyOf));
  return [...known.filter((entry) => !keys.has(keyOf(entry))), ...fresh];
}

/** Whether tightening asks for nothing new: the dish is over by rounding alone, or nothing it takes could cost less. */
function sameAs(known: readonly Tightening[], fresh: readonly Tightening[]): boolean {
  return (
    known.length === fresh.length &&
    known.every(
      (entry, index) => entry.perKilogram === fresh[index]?.perKilogram && entry.held === fresh[index]?.held,
    )
  );
}

function overItsCeiling(outcome: Outcome): Outcome {
  return failed(outcome, "every plan found puts a dish over its ceiling, though none was proved impossible");
}

function failed({ engine, seconds }: Outcome, reason: string): Outcome {
  return { kind: "failed", engine, seconds, reason };
}
