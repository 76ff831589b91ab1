import { relativeGap, type Solved, type Stop, solveStages, verifyDecision } from "../allocation/index.js";
import { composePlan, type PlanJson } from "../contract/index.js";
import {
  cautiousJson,
  halfWay,
  isSureEnough,
  type Lowered,
  loweredFurther,
  onFullYields,
  riskJson,
  riskOf,
  withLowered,
} from "../insight/index.js";
import type { Decision, Scenario } from "../kitchen/index.js";
import { aimFigure, aimValuesOf, costsShown, keepLedger } from "../ledger/index.js";
import { checkSafety } from "../safety/index.js";
import { type Planned, type PlanOptions, planScenario } from "./plan.js";
import { planWithinCeilings } from "./plan-within-ceilings.js";

interface CautiousOptions extends PlanOptions {
  /** The chance, 0 to 1, that every dish is to be there in full with. */
  readonly level: number;
}

const MOST_ROUNDS = 20;
/** So often is a step that leaves no plan halved. */
const MOST_MISSES = 3;
/** No round is begun with less time than this, once there is a plan. */
const LEAST_SECONDS = 0.3;

/**
 * Plans on lower yields, lowered again item by item until every dish is there in full with the chance asked: the
 * plan is re-cut and served by chance after each round, on the yields as they are. What the lower yields leave over
 * is counted as waste that is to be expected. Where that chance can't be reached, or not in the time, the surest plan
 * found stands, and says so; where there is no plan at all, it is as `planScenario` says.
 */
export async function planCautiously(asked: Scenario, options: CautiousOptions): Promise<Planned> {
  const until = performance.now() + options.seconds * 1000;
  const left = (): number => (until - performance.now()) / 1000;
  const scenario = options.aim === undefined ? asked : { ...asked, aim: options.aim };
  const { engines, engine, level, onProgress } = options;
  let lowered: Lowered | null = new Map();
  let bound: number | null = null;
  let best: Tried | null = null;
  let last: Tried | null = null;
  let misses = 0;
  for (let round = 0; round < MOST_ROUNDS && lowered !== null; round++) {
    if (best !== null && left() < LEAST_SECONDS) break;
    const tried: Tried | null = await tryWith(lowered);
    if (tried === null) {
      // So low there is no plan: perhaps half way is enough.
      if (last === null || ++misses > MOST_MISSES) break;
      lowered = halfWay(last.lowered, lowered);
      continue;
    }
    last = tried;
    bound ??= tried.first.bound;
    if (best === null || sureness(tried) > sureness(best)) best = tried;
    if (isSureEnough(tried.risk, level)) break;
    lowered = loweredFurther(lowered, tried.risk, level, { decision: tried.decision, scenario });
  }
  if (best === null || bound === null)
    return planScenario(asked, { ...options, seconds: Math.max(0, left()) });
  return { plan: composed(best, bound), scenario };

  async function tryWith(by: Lowered): Promise<Tried | null> {
    const settled = await planWithinCeilings(withLowered(scenario, by), (model) =>
      solveStages(model, {
        engines,
        seconds: Math.max(LEAST_SECONDS, left()),
        ...(engine === undefined ? {} : { engine }),
        ...(onProgress === undefined
          ? {}
          : { onProgress: (stage, progress) => onProgress({ ...progress, stage }) }),
      }),
    );
    if (settled.kind === "none") return null;
    const decision = onFullYields(settled.decision, scenario);
    if (verifyDecision(decision, scenario).length > 0) return null;
    const ledger = keepLedger(scenario, decision);
    if (costsShown(scenario, decision, ledger).length > 0) return null;
    const { first } = settled;
    return { lowered: by, first, decision, ledger, risk: riskOf(decision, scenario, options.risk) };
  }

  function composed({ lowered: by, first, decision, ledger, risk }: Tried, least: number): PlanJson {
    const objective = aimFigure(scenario, decision, aimValuesOf(scenario, decision, ledger)).toNumber();
    const words = `being ${level * 100} % sure, not least ${scenario.aim}`;
    const stoppedBy: Stop = { code: "certainty", words };
    const isLowered = by.size > 0;
    const outcome: Solved = isLowered
      ? { ...first, kind: "feasible", objective, bound: least, gap: relativeGap(objective, least), stoppedBy }
      : first;
    const { warnings } = checkSafety(scenario);
    const plan = composePlan(scenario, decision, ledger, { outcome, stages: [], warnings, reasons: [] });
    const cautious = cautiousJson(level, isSureEnough(risk, level), by);
    return { ...plan, risk: { ...riskJson(risk, scenario), cautious } };
  }
}

interface Tried {
  readonly lowered: Lowered;
  readonly first: Solved;
  readonly decision: Decision;
  readonly ledger: ReturnType<typeof keepLedger>;
  readonly risk: ReturnType<typeof riskOf>;
}

/** The least chance of any dish. */
function sureness({ risk }: Tried): number {
  return Math.min(1, ...risk.dishes.map(({ chanceShort }) => 1 - chanceShort));
}
