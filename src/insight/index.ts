/** What a cook asks next: why there is no plan, and what would make one. */
export * from "./no-plan.js";
