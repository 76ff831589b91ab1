/** Yields: the tables, the joining of a scenario with them, and what parts cost. */

export * from "./load-tables.js";
export * from "./read-tables.js";
export * from "./tables.js";
