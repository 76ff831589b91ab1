import { Decimal, grams, toGrams, type Weight } from "../../quantity/index.js";
import { DELIVERY_OF_UNITS, SPREAD_OF_UNITS } from "../spread.js";
import type { TableItem } from "../tables.js";
import {
  jackknife,
  modifiedZScores,
  type Pair,
  ratioEstimate,
  shrunkVariance,
  spreadOf,
  squaresOf,
  weighTogether,
} from "./statistics.js";
import { FEWEST_FOR_OUTLIERS, OUTLYING } from "./summary.js";
import type { YieldTest } from "./yield-test.js";

/**
 * What tests of one item and form, whatever the breakdown, say of the weight of a unit, in grams. A RangeError for no
 * tests.
 */
export function summariseUnitWeight(tests: readonly YieldTest[]) {
  if (tests.length === 0) throw new RangeError("no tests to summarise");
  const pairs = unitPairs(tests);
  return {
    tests: tests.length,
    units: tests.reduce((count, { units }) => count + units, 0),
    upTo:
      tests
        .map(({ date }) => date)
        .sort()
        .at(-1) ?? "",
    /** AP weight of all over the units of all. */
    grams: ratioEstimate(pairs),
    standardError: jackknife(pairs, ratioEstimate)?.standardError ?? null,
    /** Of the tests' mean unit weights. */
    spread: spreadOf(pairs),
    outliers: unitOutliers(tests),
  };
}

/** Far from the others by the rule for shares; they count all the same. A difference that the scale cannot show is none. */
function unitOutliers(tests: readonly YieldTest[]) {
  if (tests.length < FEWEST_FOR_OUTLIERS) return [];
  const averages = unitPairs(tests).map(({ part, whole }) => part / whole);
  const halfSteps = tests.map(({ scaleStep, units }) =>
    toGrams(scaleStep)
      .div(2 * units)
      .toNumber(),
  );
  const scores = modifiedZScores(averages, Math.max(...halfSteps));
  return tests.flatMap((test, index) =>
    Math.abs(scores[index] ?? 0) > OUTLYING ? [{ test, grams: averages[index] ?? 0 }] : [],
  );
}

/**
 * The published unit weight weighed together with the tests', by `weighTogether`; null for a loose item or no tests. A
 * kitchen's average unit is taken to lie as far from the published one as one unit from the next, for growers and
 * grades differ as units do (our choice).
 */
export function unitWeightAfterTests(item: TableItem, tests: readonly YieldTest[]) {
  if (item.measure === "loose" || tests.length === 0) return null;
  const summary = summariseUnitWeight(tests);
  const published = toGrams(item.unitWeight).toNumber();
  const spread = item.unitSpread === null ? SPREAD_OF_UNITS * published : toGrams(item.unitSpread).toNumber();
  const { mean, standardError, testsCount } = weighTogether({
    published,
    publishedError: spread,
    tested: summary.grams,
    standardError: summary.standardError,
    guessedVariance: spread ** 2 * variancesOfMean(tests),
    tests: tests.length,
  });
  return {
    ...summary,
    published: item.unitWeight,
    /** To a tenth of a gram. */
    combined: tenth(mean),
    combinedError: standardError,
    unitSpread: tenth(Math.sqrt(shrunkVariance(spread ** 2, fromUnitToUnit(tests), tests.length - 1))),
    testsCount,
  };
}

/** AP weight against units: the ratio is the weight of a unit, in grams. */
function unitPairs(tests: readonly YieldTest[]): Pair[] {
  return tests.map(({ apWeight, units }) => ({ part: toGrams(apWeight).toNumber(), whole: units }));
}

/** Variance of the mean of all units: of one delivery against others, and of one unit, taken as 1, over their number. */
function variancesOfMean(tests: readonly YieldTest[]): number {
  const all = tests.reduce((count, { units }) => count + units, 0);
  return tests.reduce((sum, { units }) => sum + (units / all) ** 2 * (DELIVERY_OF_UNITS ** 2 + 1 / units), 0);
}

/**
 * Variance from unit to unit behind that from test to test: with n tests and N units, the sum of
 * units x (mean - overall)^2 is (n - 1) s^2 + (N - sum of units^2 / N) d^2 on average, d (the deliveries') a fixed part
 * of s. Source: one-way analysis of variance (from memory).
 */
function fromUnitToUnit(tests: readonly YieldTest[]): number {
  if (tests.length < 2) return 0;
  const pairs = unitPairs(tests);
  const units = pairs.map(({ whole }) => whole);
  const all = units.reduce((sum, each) => sum + each, 0);
  const spare = all - units.reduce((sum, each) => sum + each ** 2, 0) / all;
  return squaresOf(pairs, units) / (tests.length - 1 + spare * DELIVERY_OF_UNITS ** 2);
}

function tenth(value: number): Weight {
  return grams(new Decimal(value.toFixed(1)));
}
