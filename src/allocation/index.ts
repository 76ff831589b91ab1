/** From a resolved scenario to a certified decision. */

export { type Bounds, nearestPoint, withBounds } from "./bounds.js";
export * from "./certify.js";
export { leastLotCosts } from "./costs.js";
export { type CostOfLot, decide, mendCookings } from "./decide/index.js";
export { takenBy } from "./decision-weights.js";
export { cookedAtATime, mostEaten } from "./demand.js";
export * from "./engine.js";
export { anyPoint, culpritsOf, mostUsed } from "./feasibility.js";
export {
  buildModel,
  type Ceilings,
  type Margin,
  type PlanModel,
  type Tightening,
  tighteningKey,
} from "./formulate/index.js";
export { type Groups, groupBy } from "./group.js";
export { buildLotGraph, type LotNode, partsInCuttingOrder, usableAt } from "./lot-graph.js";
export * from "./model.js";
export { ModelTooLarge, type NamedPoint, namedPoint, startFrom } from "./model.js";
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
export { verifyAnew, verifyDecision } from "./verify/index.js";
