import {
  type Engines,
  mostUsed,
  type NamedPoint,
  namedPoint,
  nearestPoint,
  solveStages,
  startFrom,
  valueAt,
  withBounds,
} from "../allocation/index.js";
import { composePlan } from "../contract/index.js";
import type { AgainOptions, PlanAgain, PlannedAgain, Planning } from "../insight/index.js";
import type { Scenario } from "../kitchen/index.js";
import { aimValuesOf, notForThisCosting } from "../ledger/index.js";
import { planWithinCeilings, type WithinCeilings } from "./plan-within-ceilings.js";

/** Proved to this by the stages after the first. */
const LATER_PROVED = 1e-4;

/**
 * Plans a scenario by its aim and then the other of waste and cost, within bounds on them and from the start given:
 * rounded, checked and balanced as every plan is. Throws a CostingError where the costing method cannot be applied.
 */
async function planAgain(scenario: Scenario, engines: Engines, options: AgainOptions): Promise<PlannedAgain> {
  const until = performance.now() + options.seconds * 1000;
  const settled = await planWithinCeilings(scenario, (built) => {
    const model = withBounds(built, options.bounds ?? {});
    return solveStages(model, {
      engines,
      seconds: Math.max(0, (until - performance.now()) / 1000),
      figuresOnly: true,
      ...(options.start === undefined ? {} : { start: startFrom(options.start, model.model) }),
    });
  });
  if (settled.kind === "none") {
    const { outcome } = settled;
    if (outcome.kind === "infeasible") return { kind: "no plan" };
    return { kind: "unknown", why: outcome.kind === "failed" ? outcome.reason : "it has no least" };
  }
  return planOf(scenario, settled);
}

/**
 * Another plan with the same waste and spend, as near as can be to the point given: rounded, checked and balanced as
 * well. The plan itself where there is none in the time.
 */
async function planNear(
  scenario: Scenario,
  plan: PlanAgain,
  { engines, to, seconds }: { engines: Engines; to: NamedPoint; seconds: number },
): Promise<PlanAgain> {
  const settled = await planWithinCeilings(scenario, async (model) => {
    const point = await nearestPoint(model, {
      engines,
      seconds,
      bounds: plan.counted,
      start: startFrom(plan.point, model.model),
      to: startFrom(to, model.model),
    });
    return { kind: "planned", ...plan.found, plan: model, point, before: null };
  }).catch(notForThisCosting);
  if (settled === null || settled.kind === "none") return plan;
  return planOf(scenario, settled);
}

/** All that questions are answered with. */
export function planningWith(engines: Engines): Planning {
  return {
    again: (scenario, options) => planAgain(scenario, engines, options),
    mostUsed: (scenario, part, seconds) => mostUsed(scenario, part, { engines, seconds }),
    near: (scenario, plan, options) => planNear(scenario, plan, { engines, ...options }),
  };
}

function planOf(
  scenario: Scenario,
  { decision, ledger, first, stages, model, point }: Extract<WithinCeilings, { kind: "plan" }>,
): PlanAgain {
  const { waste, cost } = model.objectives;
  return {
    kind: "plan",
    plan: composePlan(scenario, decision, ledger, { outcome: first, stages, warnings: [], reasons: [] }),
    values: aimValuesOf(scenario, decision, ledger),
    objective: first.objective,
    counted: { waste: valueAt(waste, point), cost: valueAt(cost, point) },
    proved: first.kind === "optimal" && stages.slice(1).every(({ gap }) => gap <= LATER_PROVED),
    point: namedPoint(model.model, point),
    found: { first, stages },
  };
}
