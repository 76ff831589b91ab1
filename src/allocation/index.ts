/** From a resolved scenario to a certified decision. */
export * from "./certify.js";
export * from "./engine.js";
export * from "./model.js";
export * from "./outcome.js";
export * from "./solve.js";
