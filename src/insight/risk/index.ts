export {
  halfWay,
  isSureEnough,
  type Lowered,
  loweredFurther,
  onFullYields,
  withLowered,
} from "./cautious.js";
export { cautiousJson, type RiskJson, riskJson } from "./report.js";
export { type DishRisk, type Risk, type RiskOptions, riskOf } from "./risk.js";
