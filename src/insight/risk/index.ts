export { type RiskJson, riskJson } from "./report.js";
export { type DishRisk, type Risk, type RiskOptions, riskOf } from "./risk.js";
