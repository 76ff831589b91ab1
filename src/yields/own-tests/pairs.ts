import { NO_WEIGHT, toGrams, type Weight } from "../../quantity/index.js";
import type { Pair } from "./statistics.js";
import type { YieldTest } from "./yield-test.js";

/** The cutting loss among the shares of an item. */
export const LOSS = "loss";

/** One share of each test against its AP weight, in grams. */
export function pairsOf(of: string, tests: readonly YieldTest[]): Pair[] {
  return tests.map((test) => ({ part: inGrams(weightOf(of, test)), whole: inGrams(test.apWeight) }));
}

/** The coarsest half step of the scale among the tests, as a fraction of the AP weight: differences below it are none. */
export function resolutionOf(tests: readonly YieldTest[]): number {
  return Math.max(...tests.map(({ scaleStep, apWeight }) => inGrams(scaleStep) / 2 / inGrams(apWeight)));
}

function weightOf(of: string, { parts, loss }: YieldTest): Weight {
  return of === LOSS ? loss : (parts.find(({ part }) => part === of)?.weight ?? NO_WEIGHT);
}

function inGrams(weight: Weight): number {
  return toGrams(weight).toNumber();
}
