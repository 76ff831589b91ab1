/** The plan as JSON: what other programs, the pages and the tests read. */
export * from "./compose.js";
export * from "./decision-of.js";
export * from "./plan.js";
