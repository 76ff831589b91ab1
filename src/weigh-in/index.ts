/** The weigh-in after service: what there is to weigh, what happened by it, and what it teaches of the yields. */
export {
  type Difference,
  type DishDifference,
  dishDifferences,
  type EndDifference,
  endDifferences,
  type Gave,
  gaveDifferences,
} from "./differences.js";
export { type Change, carriedOver, type FilledRow, filledRows, refilled } from "./edit-rows.js";
export { type Happened, rowsOfPlan, type WeighedRow, whatHappened } from "./happened.js";
export { type Learnt, learn, type NoTest, yieldTestsOf } from "./learn.js";
export { rowsToPrint } from "./lots.js";
export { holdsFigures } from "./read.js";
export { countedIn, figureOf, LOSS, lotText, type Row, WATER } from "./row.js";
export { type Filled, writeWeighIn } from "./write.js";
