/** Yields: the tables, the joining of a scenario with them, and what parts cost. */
export * from "./tables.js";
