import type { WasteCounts } from "../../src/kitchen/index.js";
import { Decimal, ONE, ZERO } from "../../src/quantity/index.js";

/** Avoidable peel counts whole, as where a scenario does not say otherwise. */
export const COUNTS_PEEL: WasteCounts = { avoidablePeel: ONE, unusedUsable: ZERO, givenAway: ZERO };
export const COUNTS_NO_PEEL: WasteCounts = { ...COUNTS_PEEL, avoidablePeel: ZERO };

/** So many hundredths of each. */
export function countsOf(avoidablePeel: number, unusedUsable: number, givenAway: number): WasteCounts {
  const hundredths = (count: number): Decimal => new Decimal(count).div(100);
  return {
    avoidablePeel: hundredths(avoidablePeel),
    unusedUsable: hundredths(unusedUsable),
    givenAway: hundredths(givenAway),
  };
}
