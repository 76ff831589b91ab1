/** Yields: the tables, the joining of a scenario with them, and what parts cost. */

export * from "./butchers-test.js";
export * from "./load-tables.js";
export * from "./read-tables.js";
export { type Resolved, resolveScenario } from "./resolve/resolve.js";
export * from "./tables.js";
