/** From a checked scenario to its plan: built, solved, settled by the ledger, judged, and planned again on a question or on the day. */
export {
  askedLine,
  type Planned,
  type PlanOptions,
  type PlanProgress,
  planScenario,
  progressLine,
} from "./plan.js";
export { planningWith } from "./plan-again.js";
export { planCautiously } from "./plan-cautious.js";
export { type Replanned, replan } from "./replan.js";
