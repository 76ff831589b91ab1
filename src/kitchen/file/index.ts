/** The scenario file: its schema, and the reading of it. */
export { parseWeight, type YieldAmount } from "./amounts.js";
export { type HappenedFile, readHappened } from "./happened.js";
export type { WrittenPrice, WrittenPrices } from "./prices.js";
export { type ReadScenario, readScenario, scenarioJsonSchema } from "./read.js";
export type { ScenarioFile } from "./schema.js";
