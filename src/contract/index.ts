/** The plan as JSON: what other programs, the pages and the tests read. */
export * from "./asked.js";
export * from "./changes.js";
export * from "./compose.js";
export * from "./decision-of.js";
export { accountsOf, decodePlan, type Plan, type PlanAccount } from "./decode.js";
export * from "./figures.js";
export * from "./form-choice.js";
export { keptPlan, readPlan } from "./kept.js";
export * from "./plan.js";
export { planHash } from "./plan-hash.js";
export * from "./tradeoff.js";
export * from "./uses.js";
export { words } from "./words.js";
export * from "./worth.js";
