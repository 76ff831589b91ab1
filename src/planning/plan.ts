import {
  anyPoint,
  culpritsOf,
  type EngineName,
  type Engines,
  type Progress,
  type StageOptions,
  solveStages,
} from "../allocation/index.js";
import { composeNoPlan, composePlan, type PlanJson } from "../contract/index.js";
import {
  type RiskOptions,
  riskJson,
  riskOf,
  type SmallestChanges,
  smallestChanges,
  type Verdict,
} from "../insight/index.js";
import type { Aim, Scenario } from "../kitchen/index.js";
import { notForThisCosting } from "../ledger/index.js";
import { checkSafety } from "../safety/index.js";
import { planWithinCeilings } from "./plan-within-ceilings.js";

export interface PlanOptions {
  readonly engines: Engines;
  /** Seconds for everything, from the call. */
  readonly seconds: number;
  /** Instead of the scenario's own. */
  readonly aim?: Aim;
  /** Ask this engine only. */
  readonly engine?: EngineName;
  readonly onProgress?: (progress: PlanProgress) => void;
  /** Told as soon as it is proved that there is no plan, before what would make one possible is looked for. */
  readonly onNoPlan?: (proved: Planned) => void;
  /** Say too how sure the plan is. */
  readonly risk?: RiskOptions;
}

export interface PlanProgress extends Progress {
  readonly stage: string;
}

export interface Planned {
  readonly plan: PlanJson;
  /** The scenario as planned, with the aim asked for. */
  readonly scenario: Scenario;
}

/** Rounding, checking and the ledger take about so many times as long as building the model did. */
const AFTERWARDS = 1;
/** Of the time, for planning again where the ledger finds a dish over its ceiling. */
const KEPT_TO_TIGHTEN = 0.2;
/** For planning again with one figure changed. */
const REPLAN_SECONDS = 2;
/** Of the time, for saying how sure the plan is; most seconds of it. */
const KEPT_FOR_RISK = { share: 0.12, seconds: 1.2 };
/** Where less than half of that is left, on a slow machine, so much of it is done. */
const RISK_IN_HASTE = 0.25;
/** Of the time left, for finding what is asked too much of; the rest is for what would do. */
const CULPRITS_SHARE = 0.4;
/** Kept for the plan to be put together. */
const KEPT_TO_COMPOSE = 0.03;
/** Solved for at least so long, even where reading took all the time: a small plan takes no longer. */
const LEAST_SECONDS = 0.15;

/**
 * Plans a scenario: the least of its aim, then of the other, then the one that cuts latest before use, whole and balanced; or
 * what would make a plan possible. Throws a CostingError where the costing method cannot be applied, and a
 * RangeError where the scenario serves what must not be eaten.
 */
export async function planScenario(asked: Scenario, options: PlanOptions): Promise<Planned> {
  const until = performance.now() + options.seconds * 1000;
  const left = (): number => (until - performance.now()) / 1000;
  const scenario = options.aim === undefined ? asked : { ...asked, aim: options.aim };
  const { blocks, warnings } = checkSafety(scenario);
  refuseBlocked(blocks);
  const forRisk =
    options.risk === undefined ? 0 : Math.min(KEPT_FOR_RISK.seconds, KEPT_FOR_RISK.share * options.seconds);
  let least = LEAST_SECONDS;
  const settled = await planWithinCeilings(scenario, (model, built) => {
    const seconds = Math.max(least, secondsToSolve(scenario, left() - forRisk - KEPT_TO_COMPOSE, built));
    least = 0;
    return solveStages(model, stageOptions(options, seconds));
  });
  if (settled.kind === "plan") {
    const { decision, ledger, first, stages } = settled;
    const findings = { outcome: first, stages, warnings, reasons: [] };
    const plan = composePlan(scenario, decision, ledger, findings);
    const seconds = (options.risk?.seconds ?? options.seconds) * (left() < forRisk / 2 ? RISK_IN_HASTE : 1);
    const risk =
      options.risk === undefined
        ? null
        : riskJson(riskOf(decision, scenario, { ...options.risk, seconds }), scenario);
    return { plan: { ...plan, risk }, scenario };
  }
  const { outcome } = settled;
  const findings = { outcome, stages: [], warnings, reasons: [] };
  const proved = { plan: composeNoPlan(scenario, findings), scenario };
  if (outcome.kind !== "infeasible") return proved;
  options.onNoPlan?.(proved);
  const { changes, isCut } = await changesFor(scenario, options.engines, left() - KEPT_TO_COMPOSE);
  const plan = composeNoPlan(scenario, { ...findings, reasons: changes, reasonsCut: isCut });
  return { plan, scenario };
}

/** What must not be planned is not planned, however the scenario came here. */
function refuseBlocked(blocks: readonly { readonly text: string }[]): void {
  if (blocks.length > 0) throw new RangeError(blocks.map(({ text }) => text).join(" "));
}

/** Of the seconds left, those a model may be solved for, so that the plan is whole and printed in time. */
function secondsToSolve({ dishes }: Scenario, left: number, built: number): number {
  const kept = dishes.some(({ ceiling }) => ceiling !== null) ? KEPT_TO_TIGHTEN : 0;
  return Math.max(left / 2, left - AFTERWARDS * built) * (1 - kept);
}

function stageOptions({ engines, engine, onProgress }: PlanOptions, seconds: number): StageOptions {
  return {
    engines,
    seconds,
    ...(engine === undefined ? {} : { engine }),
    ...(onProgress === undefined
      ? {}
      : { onProgress: (stage, progress) => onProgress({ ...progress, stage }) }),
  };
}

/** The smallest changes that would make a plan possible, looked for in the time that is left. */
async function changesFor(scenario: Scenario, engines: Engines, seconds: number): Promise<SmallestChanges> {
  const until = performance.now() + seconds * 1000;
  const each = () => Math.min(REPLAN_SECONDS, Math.max(0, (until - performance.now()) / 1000));
  const replan = async (changed: Scenario): Promise<Verdict> => {
    const settled = await planWithinCeilings(changed, (model) =>
      anyPoint(model, { engines, seconds: each() }),
    ).catch(notForThisCosting);
    if (settled === null) return "unknown";
    if (settled.kind === "plan") return "plan";
    return settled.outcome.kind === "infeasible" ? "no plan" : "unknown";
  };
  const culprits = (changed: Scenario) => culpritsOf(changed, { engines, seconds: CULPRITS_SHARE * each() });
  return smallestChanges(scenario, { culprits, replan }, seconds);
}

const PROVED = 1e-6;
const STAGES: Readonly<Record<string, string>> = {
  waste: "Least waste",
  cost: "Least cost",
  balanced: "Least cost and waste together",
  freshest: "Cut latest before use",
};

/** A line on a plan being made: what is looked for, how far the proof has come, and the time. */
export function progressLine(
  {
    stage,
    best,
    bound,
    seconds,
  }: { stage: string; best: number | null; bound: number | null; seconds: number },
  allowed: number,
): string {
  return `${STAGES[stage] ?? stage}: ${proofText(best, bound)}; ${seconds.toFixed(0)} s of at most ${allowed} s`;
}

/** Without units: how much better than the plan in hand any other could still be, never rounded down. */
function proofText(best: number | null, bound: number | null): string {
  if (best === null) return "no plan in hand yet";
  if (bound === null || !Number.isFinite(bound)) return "a plan in hand, nothing proved yet";
  const open = Math.abs(best - bound) / Math.max(Math.abs(best), 1e-9);
  if (open <= PROVED) return "proved";
  const steps = open < 0.1 ? 10 : 1;
  const percent = Math.ceil(open * 100 * steps - PROVED) / steps;
  return `a plan in hand, at most ${percent} % from the best there can be`;
}

/** A line on a row of questions, each of them a plan: how many are answered, and the time. */
export function askedLine(
  { done, of }: { readonly done: number; readonly of: number | null },
  began: number,
  allowed: number,
): string {
  const seconds = (performance.now() - began) / 1000;
  const plans = of === null ? `${done} plans made` : `${done} of ${of} plans made`;
  return `${plans}; ${seconds.toFixed(0)} s of at most ${allowed} s`;
}
