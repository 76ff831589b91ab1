/** What a cook asks next: why there is no plan, and what would make one. */
export * from "./no-plan.js";
export { type DishRisk, type Risk, type RiskOptions, riskOf } from "./risk/index.js";
