/** Exact weights and money, units of measure, and splitting without loss. */
export * from "./coin.js";
export * from "./decimal.js";
export * from "./exact.js";
export * from "./scale.js";
export * from "./split.js";
export * from "./units.js";
export * from "./wage.js";
