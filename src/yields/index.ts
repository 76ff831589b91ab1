/** Yields: the tables, a kitchen's own tests, and test cards worked out. */

export { priceIn, type TestCard } from "./cards/card.js";
export { type CheckedTestCard, checkTestCard } from "./cards/check-card.js";
export { type TestFigures, type TestKind, testCardJson, testFigures } from "./cards/figures.js";
export * from "./cards/test-sums.js";
export { words as testCardWords } from "./cards/words.js";
export * from "./forms.js";
export { tablesWithTests } from "./own-tests/combine.js";
export { readYieldTests } from "./own-tests/read-tests.js";
export {
  blankYieldTest,
  numberedAfter,
  type TestsAdded,
  type TypedSource,
  type TypedTest,
  testsAdded,
  typedYieldTest,
  writeYieldTests,
} from "./own-tests/write-tests.js";
export type { WeighedPart, YieldTest } from "./own-tests/yield-test.js";
export * from "./read-tables.js";
export * from "./report/item-yields.js";
export type { TestedYields } from "./report/own-tests.js";
export { STATED_SPREAD, spreadFrom, unitSpreadOf, yieldSpreadOf } from "./spread.js";
export * from "./tables.js";
