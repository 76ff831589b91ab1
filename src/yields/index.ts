/** Yields: the tables, the joining of a scenario with them, and what parts cost. */

export * from "./butchers-test.js";
export type { ByProduct } from "./card-figures.js";
export * from "./cards/index.js";
export * from "./cooking-loss-test.js";
export * from "./form-choice.js";
export * from "./load-tables.js";
export * from "./portions.js";
export * from "./priced-forms.js";
export * from "./read-tables.js";
export * from "./report/index.js";
export { resolveScenario } from "./resolve/resolve.js";
export * from "./tables.js";
export * from "./weighing/index.js";
