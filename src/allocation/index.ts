/** From a resolved scenario to a certified decision. */
export { buildModel, costKey, type KnownCosts, type PlanModel } from "./build/index.js";
export * from "./certify.js";
export { decide } from "./decide/index.js";
export * from "./engine.js";
export { lastDayOfLot } from "./lot-dates.js";
export * from "./model.js";
export * from "./outcome.js";
export * from "./solve.js";
export { isSolved, PROOF_GAP, type Staged, type StageResult, solveStages } from "./stages.js";
export { type Fault, verifyDecision } from "./verify/index.js";
