import { type Money, roundTogether, total, type Weight } from "../quantity/index.js";

/** A column as it is printed. */
export interface PrintedColumn<T> {
  readonly figures: readonly T[];
  /** The sum of the figures, which is also the exact sum rounded half up. */
  readonly total: T;
}

/**
 * Rounds a column to multiples of a step (one gram, one cent) so that the printed figures add up to the printed
 * total: the total is rounded half up, and each figure goes up or down to a neighbouring step by largest
 * remainder. Both sides of an identity printed this way show the same total.
 */
export function printedColumn<T extends Weight | Money>(amounts: readonly T[], step: T): PrintedColumn<T> {
  const figures = roundTogether(amounts, step);
  return { figures, total: total(figures) };
}
