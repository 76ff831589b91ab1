/** What a cook asks next: what would be cheaper, why there is no plan and what would make one, how sure a plan is, what an offcut is good for. */
export type { Again, AgainOptions, PlanAgain, Planning } from "./again.js";
export * from "./forms/index.js";
export * from "./no-plan.js";
export * from "./on-the-day/index.js";
export * from "./risk/index.js";
export { composeTradeoff } from "./tradeoff/compose.js";
export { type Curve, type CurveOptions, tradeoffCurve } from "./tradeoff/curve.js";
export * from "./uses/index.js";
export { worthOf } from "./worth/worth.js";
