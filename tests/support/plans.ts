import { type Engines, solveStages } from "../../src/allocation/index.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";

/** The decision of a scenario that has a plan. */
export async function decisionFor(scenario: Scenario, engines: Engines): Promise<Decision> {
  const settled = await planWithinCeilings(scenario, (model) => solveStages(model, { engines, seconds: 10 }));
  if (settled.kind === "none") throw new Error(`no plan: ${settled.outcome.kind}`);
  return settled.decision;
}
