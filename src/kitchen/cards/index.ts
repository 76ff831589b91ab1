/** The file of a butcher's test or a cooking-loss test: its schema, and the reading of it. */
export { type PriceForWeight, parsePriceForWeight } from "./figures.js";
export { isTestCard, type ReadTestCard, readTestCard } from "./read.js";
export type { TestCardFile } from "./schema.js";
