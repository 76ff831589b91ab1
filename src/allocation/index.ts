/** From a resolved scenario to a certified decision. */

export { type Bounds, withBounds } from "./bounds.js";
export { ModelTooLarge } from "./builder.js";
export * from "./certify.js";
export { leastLotCosts } from "./costs.js";
export { type CostOfLot, decide, mendCookings } from "./decide/index.js";
export { cookedAtATime, mostEaten } from "./demand.js";
export * from "./engine.js";
export { anyPoint, culpritsOf } from "./feasibility.js";
export {
  buildModel,
  type Ceilings,
  type Margin,
  type PlanModel,
  type Tightening,
  tighteningKey,
} from "./formulate/index.js";
export { type Groups, groupBy } from "./group.js";
export * from "./model.js";
export { mostUsed } from "./most-used.js";
export { nearestPoint } from "./nearest.js";
export { buildNetwork, type LotNode, partsInCuttingOrder, usableAt } from "./network.js";
export * from "./outcome.js";
export { Random } from "./random.js";
export * from "./solve.js";
export {
  type PlanPoint,
  PROOF_GAP,
  type Staged,
  type StageOptions,
  type StageResult,
  solveStages,
} from "./stages.js";
export { type NamedPoint, namedPoint, startFrom } from "./start.js";
export { takenBy } from "./taken.js";
export { type Fault, verifyAnew, verifyDecision } from "./verify/index.js";
