/** The nouns: items, breakdowns, parts, dishes, services, the scenario that holds them and the decision about it. */
export * from "./buying.js";
export * from "./cards/index.js";
export * from "./costing.js";
export * from "./days.js";
export * from "./decision.js";
export * from "./destinations.js";
export * from "./file/index.js";
export * from "./lots.js";
export * from "./scenario.js";
export * from "./services.js";
