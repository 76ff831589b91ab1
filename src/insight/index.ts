/** What a cook asks next: why there is no plan and what would make one, and how sure a plan is. */
export * from "./no-plan.js";
export * from "./risk/index.js";
