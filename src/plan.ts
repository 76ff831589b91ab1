import {
  buildModel,
  costKey,
  decide,
  type EngineName,
  type Engines,
  type KnownCosts,
  type Outcome,
  type Progress,
  type StageResult,
  solveStages,
  verifyDecision,
} from "./allocation/index.js";
import { composeNoPlan, composePlan, type PlanJson, type Reason } from "./contract/index.js";
import type { Aim, Scenario } from "./kitchen/index.js";
import { dishesOverCeiling, keepLedger, type Ledger, type OverCeiling } from "./ledger/index.js";
import {
  type Money,
  NO_MONEY,
  NO_WEIGHT,
  plus,
  toCurrency,
  toKilograms,
  type Weight,
} from "./quantity/index.js";
import { checkSafety } from "./safety/index.js";

export interface PlanOptions {
  readonly engines: Engines;
  /** Seconds for everything, from the call. */
  readonly seconds: number;
  /** Instead of the scenario's own. */
  readonly aim?: Aim;
  /** Ask this engine only. */
  readonly engine?: EngineName;
  readonly onProgress?: (progress: PlanProgress) => void;
}

export interface PlanProgress extends Progress {
  readonly stage: string;
}

export interface Planned {
  readonly plan: PlanJson;
  /** The scenario as planned, with the aim asked for. */
  readonly scenario: Scenario;
}

/** Ceilings are judged on the ledger; so often is a plan over one of them tightened and solved again. */
const MOST_TIGHTENINGS = 5;

/**
 * Plans a scenario: builds the model, solves the aims in order, rounds to whole portions and grams, checks that,
 * keeps the ledger, and tightens until every dish keeps to its ceiling. Throws a CostingError where the costing
 * method cannot be applied.
 */
export async function planScenario(asked: Scenario, options: PlanOptions): Promise<Planned> {
  const scenario = options.aim === undefined ? asked : { ...asked, aim: options.aim };
  const until = performance.now() + options.seconds * 1000;
  const { warnings } = checkSafety(scenario);
  const none = (
    outcome: Outcome,
    reasons: readonly Reason[],
    stages: readonly StageResult[] = [],
  ): Planned => ({
    plan: composeNoPlan(scenario, { outcome, stages, warnings, reasons }),
    scenario,
  });

  let costs: KnownCosts = new Map();
  for (let round = 0; ; round++) {
    const model = buildModel(scenario, costs);
    const staged = await solveStages(model, stageOptions(options, (until - performance.now()) / 1000));
    if (staged.kind === "none") {
      return none(round === 0 ? staged.first : overItsCeiling(staged.first), []);
    }
    const { first, stages } = staged;
    const decision = decide(model, staged.point);
    const faults = verifyDecision(decision, scenario);
    if (faults.length > 0)
      return none(failedWith(first, `the rounded plan falls short: ${faults.join("; ")}`), []);
    const ledger = keepLedger(scenario, decision);
    const over = dishesOverCeiling(scenario, ledger);
    if (over.length === 0) {
      return {
        plan: composePlan(scenario, decision, ledger, { outcome: first, stages, warnings, reasons: [] }),
        scenario,
      };
    }
    if (round === MOST_TIGHTENINGS) return none(overItsCeiling(first), [], stages);
    costs = tightened(costs, over, ledger, scenario);
  }
}

function stageOptions({ engines, engine, onProgress }: PlanOptions, seconds: number) {
  return {
    engines,
    seconds,
    ...(engine === undefined ? {} : { engine }),
    ...(onProgress === undefined
      ? {}
      : { onProgress: (stage: string, progress: Progress) => onProgress({ ...progress, stage }) }),
  };
}

function failedWith({ engine, seconds }: Outcome, reason: string): Outcome {
  return { kind: "failed", engine, seconds, reason };
}

function overItsCeiling(outcome: Outcome): Outcome {
  return failedWith(
    outcome,
    "every plan found puts a dish over its ceiling, though none was proved impossible",
  );
}

/** What the parts of the dishes over their ceilings cost by the ledger, never less than was known before. */
function tightened(
  known: KnownCosts,
  over: readonly OverCeiling[],
  ledger: Ledger,
  scenario: Scenario,
): KnownCosts {
  const costs = new Map(known);
  for (const { dish, service } of over) {
    const account = `dish:${dish} @ ${scenario.services[service]?.name}`;
    const byPart = new Map<string, { weight: Weight; money: Money }>();
    for (const { from, to, weight, money } of ledger.transfers) {
      if (to !== account || !from.startsWith("part:")) continue;
      const part = from.slice("part:".length);
      const sum = byPart.get(part) ?? { weight: NO_WEIGHT, money: NO_MONEY };
      byPart.set(part, { weight: plus(sum.weight, weight), money: plus(sum.money, money) });
    }
    for (const [part, { weight, money }] of byPart) {
      if (weight === NO_WEIGHT) continue;
      const key = costKey(part, dish, service);
      costs.set(key, Math.max(costs.get(key) ?? 0, toCurrency(money).div(toKilograms(weight)).toNumber()));
    }
  }
  return costs;
}
