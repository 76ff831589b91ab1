/** What a cook asks next: what would be cheaper, why there is no plan and what would make one, how sure a plan is, what an offcut is good for. */
export { type ChangesFrom, changesFrom, type GoingChange } from "./changes.js";
export { composeFormChoice, planFormChoice } from "./forms/compose.js";
export * from "./no-plan.js";
export { type Complain, pastOf } from "./on-the-day/past.js";
export { buyableBefore, restOf, wholeOf, withCovers } from "./on-the-day/rest.js";
export type { AgainOptions, PlanAgain, PlannedAgain, Planning } from "./planning.js";
export {
  cautiousJson,
  halfWay,
  isSureEnough,
  type Lowered,
  loweredFurther,
  onFullYields,
  withLowered,
} from "./risk/cautious.js";
export { type DishRisk, type Risk, type RiskJson, type RiskOptions, riskJson, riskOf } from "./risk/risk.js";
export { type Curve, type CurveOptions, composeTradeoff, tradeoffCurve } from "./tradeoff.js";
export { usesOf } from "./uses.js";
export { worthOf } from "./worth/worth.js";
