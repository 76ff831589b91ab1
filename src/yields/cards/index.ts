/** Test cards: a file's butcher's test and cooking-loss test checked, and worked out to the coin. */
export { priceIn, type TestCard } from "./card.js";
export { type CardRow, type TestFigures, type TestKind, testFigures } from "./figures.js";
export { testCardJson } from "./json.js";
export { type SettledTestCard, settleTestCard } from "./settle.js";
export { words as testCardWords } from "./words.js";
