import {
  buildModel,
  decide,
  leastCosts,
  type Outcome,
  type PlanModel,
  type Solved,
  type Staged,
  type StageResult,
  type Tightening,
  verifyDecision,
} from "./allocation/index.js";
import type { Decision, Scenario } from "./kitchen/index.js";
import { type CostsShown, costsShown, keepLedger, type Ledger } from "./ledger/index.js";
import { toCurrency, toKilograms } from "./quantity/index.js";

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
const MOST_TIGHTENINGS = 5;
/** A little more than the excess, so that rounding to the scale does not bring it back. */
const TIGHTER = 1.02;

/**
 * Builds the model, has it solved, rounds the point to whole portions and grams, checks that against the
 * scenario, keeps the ledger, and tightens until no dish is over its ceiling. Throws a CostingError where the
 * costing method cannot be applied.
 */
export async function settle(
  scenario: Scenario,
  solveModel: (model: PlanModel) => Promise<Staged>,
): Promise<Settled> {
  let tightenings: readonly Tightening[] = [];
  for (let round = 0; ; round++) {
    const model = buildModel(scenario, tightenings);
    const staged = await solveModel(model);
    if (staged.kind === "none") {
      return { kind: "none", outcome: round === 0 ? staged.first : overItsCeiling(staged.first) };
    }
    const { first, stages } = staged;
    const decision = decide(model, staged.point);
    const faults = verifyDecision(decision, scenario);
    if (faults.length > 0) {
      return { kind: "none", outcome: failed(first, `the rounded plan falls short: ${faults.join("; ")}`) };
    }
    const ledger = keepLedger(scenario, decision);
    const shown = costsShown(scenario, decision, ledger);
    if (shown.length === 0) return { kind: "plan", first, stages, decision, ledger };
    if (round === MOST_TIGHTENINGS) return { kind: "none", outcome: overItsCeiling(first) };
    tightenings = tightened(scenario, tightenings, shown);
  }
}

/**
 * What the parts of a dish over its ceiling may cost at most: between the least they can and what they were shown
 * to, so far down that the dish as cooked would keep to its ceiling.
 */
function tightened(
  scenario: Scenario,
  known: readonly Tightening[],
  shown: readonly CostsShown[],
): Tightening[] {
  const least = leastCosts(scenario);
  const fresh = shown.flatMap(({ dish, service, excess, parts }) => {
    const paid = parts
      .filter(({ weight }) => weight > 0n)
      .map(({ part, weight, money }) => ({
        part,
        kilograms: toKilograms(weight).toNumber(),
        cost: toCurrency(money).div(toKilograms(weight)).toNumber(),
        least: least.get(part) ?? 0,
      }));
    const above = paid.reduce(
      (sum, entry) => sum + entry.kilograms * Math.max(0, entry.cost - entry.least),
      0,
    );
    const kept = above === 0 ? 0 : Math.max(0, 1 - (TIGHTER * toCurrency(excess).toNumber()) / above);
    return paid
      .filter((entry) => entry.cost > entry.least)
      .map(({ part, cost, least: floor }) => ({
        part,
        dish,
        service,
        perKilogram: floor + kept * (cost - floor),
      }));
  });
  const replaced = new Set(fresh.map(({ part, dish, service }) => `${part} | ${dish} | ${service}`));
  return [
    ...known.filter(({ part, dish, service }) => !replaced.has(`${part} | ${dish} | ${service}`)),
    ...fresh,
  ];
}

function overItsCeiling(outcome: Outcome): Outcome {
  return failed(outcome, "every plan found puts a dish over its ceiling, though none was proved impossible");
}

function failed({ engine, seconds }: Outcome, reason: string): Outcome {
  return { kind: "failed", engine, seconds, reason };
}
