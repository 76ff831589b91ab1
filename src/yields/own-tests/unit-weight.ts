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

/** What tests of one item and form, whatever the breakdown, say of the weight of a unit, in grams. */
export interface UnitWeightSummary {
  readonly tests: number;
  readonly units: number;
  /** ISO date of the last test. */
  readonly upTo: string;
  /** Ratio estimate: AP weight of all over the units of all. */
  readonly grams: number;
  /** By the jackknife; null for a single test. */
  readonly standardError: number | null;
  /** Standard deviation of the tests' mean unit weights, weighted by their units; null for a single test. */
  readonly spread: number | null;
  /** Tests whose units weigh far from those of the others; they count all the same. */
  readonly outliers: readonly { readonly test: YieldTest; readonly grams: number }[];
}

/** The weight of a unit before and after the kitchen's own tests. */
export interface CombinedUnitWeight extends UnitWeightSummary {
  readonly published: Weight;
  /** To a tenth of a gram. */
  readonly combined: Weight;
  /** Of the two weighed together, in grams. */
  readonly combinedError: number;
  /** Standard deviation from unit to unit. */
  readonly unitSpread: Weight;
  /** How much the tests count, 0 to 1. */
  readonly testsCount: number;
}

/** A RangeError for no tests. */
export function summariseUnitWeight(tests: readonly YieldTest[]): UnitWeightSummary {
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
    grams: ratioEstimate(pairs),
    standardError: jackknife(pairs, ratioEstimate)?.standardError ?? null,
    spread: spreadOf(pairs),
    outliers: unitOutliers(tests),
  };
}

/** By the rule for shares; a difference that the scale cannot show is none. */
function unitOutliers(tests: readonly YieldTest[]): UnitWeightSummary["outliers"] {
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
export function unitWeightAfterTests(
  item: TableItem,
  tests: readonly YieldTest[],
): CombinedUnitWeight | null {
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
