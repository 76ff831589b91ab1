/** The kitchen's own yield tests: read, judged, and weighed together with the published yields. */

export { type TestsAdded, testsAdded } from "./add-tests.js";
export type { BreakdownAfterTests, CombinedShare } from "./combine.js";
export type { Drift } from "./drift.js";
export { type ReadYieldTests, readYieldTests } from "./read-tests.js";
export type {
  Outlier,
  ShareSummary,
  TestSummary,
} from "./summary.js";
export { tablesWithTests } from "./tables-with-tests.js";
export { type TypedField, type TypedSource, type TypedTest, typedYieldTest } from "./typed-test.js";
export type {
  CombinedUnitWeight,
  UnitWeightSummary,
} from "./unit-weight.js";
export { blankYieldTest, numberedAfter, writeYieldTests } from "./write-tests.js";
export type { WeighedPart, YieldTest } from "./yield-test.js";
