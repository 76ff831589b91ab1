/** Test cards: a file's butcher's test and cooking-loss test checked, and worked out to the coin. */
export type { CardUnit, TestCard } from "./card.js";
export { butchersFigures, type CardRow, cookingFigures, type TestFigures } from "./figures.js";
export { type SettledTestCard, settleTestCard } from "./settle.js";
export { lacksTest } from "./words.js";
