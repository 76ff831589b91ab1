/** The scenario file: its schema, and the reading of it. */
export type { LineAmount, StapleAmount, StockAmount, YieldAmount } from "./amounts.js";
export type { PricedBy, WrittenPrice } from "./prices.js";
export { type ReadScenario, readScenario, scenarioJsonSchema } from "./read.js";
export type { ScenarioFile } from "./schema.js";
