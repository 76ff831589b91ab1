/** Yields: the tables, a kitchen's own tests, and test cards worked out. */

export * from "./butchers-test.js";
export type { ByProduct } from "./card-figures.js";
export * from "./cards/index.js";
export * from "./cooking-loss-test.js";
export * from "./form-choice.js";
export * from "./load-tables.js";
export * from "./own-tests/index.js";
export * from "./portions.js";
export * from "./priced-forms.js";
export * from "./read-tables.js";
export * from "./report/index.js";
export { STATED_SPREAD, spreadFrom, unitSpreadOf, yieldSpreadOf } from "./spread.js";
export * from "./tables.js";
