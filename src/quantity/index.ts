/** Exact weights and money, units of measure, and splitting without loss. */
export * from "./exact.js";
export * from "./scale.js";
export * from "./split.js";
export * from "./units.js";
