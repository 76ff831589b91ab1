import { Decimal, milligrams, splitByShares } from "../../quantity/index.js";
import type { Basis } from "../../table-files/index.js";
import type { TableBreakdown, TablePart } from "../tables.js";
import { LOSS, pairsOf } from "./pairs.js";
import { steadied, weighTogether } from "./prior.js";
import { effectiveCount, varianceOfUnits } from "./statistics.js";
import { type ShareSummary, summariseTests, type TestSummary } from "./summary.js";
import type { YieldTest } from "./yield-test.js";

/** One share of a breakdown before and after the kitchen's own tests; fractions of the AP weight. */
export interface CombinedShare {
  /** Full name of the part, or "loss". */
  readonly of: string;
  readonly published: Decimal;
  /** How far this kitchen may lie from the published figure: a standard deviation. */
  readonly publishedError: number;
  /** Ratio estimate of the tests. */
  readonly tested: number;
  /** Standard error of the tests, steadied where they are few. */
  readonly testedError: number;
  /** The two weighed together, and made to add up to one with the other shares. */
  readonly combined: Decimal;
  readonly standardError: number;
  /** How much the tests count, 0 to 1; the published figure counts for the rest. */
  readonly testsCount: number;
}

export interface BreakdownAfterTests extends TableBreakdown {
  /** Each part in its order and last the cutting loss; none where there are no tests. */
  readonly shares: readonly CombinedShare[];
}

/**
 * How far a kitchen may lie from a published figure that comes without a spread: this times sqrt(p (1 - p)), the
 * shape of the error of a share of a whole. 0.10 is what tests of published series scatter by: the median of
 * spread / sqrt(p (1 - p)) over the USDA Table of Cooking Yields for Meat and Poultry (2014). That figures from
 * memory and common practice lie further off, and how far, is our choice.
 */
export const ERROR_OF_PUBLISHED: Readonly<Record<Basis, number>> = {
  read: 0.1,
  memory: 0.15,
  "common practice": 0.2,
  "own test": 0.1,
};
/** From test to test, before the tests themselves tell. The same series. */
export const SPREAD_OF_TESTS = 0.1;
/** No spread is taken for less than this, a percent of the weight bought. Our choice. */
const LEAST_SPREAD = 0.01;

const PARTS_PER_MILLION = milligrams(1_000_000n);

/**
 * A published breakdown after the kitchen's own tests of it. Each share is the published figure and the tests'
 * ratio estimate, by `weighTogether`. The published figure's standard deviation is its spread, where it has one
 * (how kitchens differ, so not divided by the tests behind it), else a default by basis. What the shares are then
 * short of one, or over it, is shared out by their variances, and they are rounded together to a millionth, so
 * that they add up to one exactly. Classes, keeping and pieces stay as published.
 * A RangeError where a test names other parts than the breakdown.
 *
 * Source, from memory: adjustment to a condition by variances, Deming, Statistical Adjustment of Data (1943).
 */
export function yieldsAfterTests(
  breakdown: TableBreakdown,
  tests: readonly YieldTest[],
): BreakdownAfterTests {
  if (tests.length === 0) return { ...breakdown, shares: [] };
  refuseOtherParts(breakdown, tests);
  const summary = summariseTests(tests);
  const weighed = publishedShares(breakdown).map((share) =>
    weighedTogether(
      share,
      summary.shares.find(({ of }) => of === share.of),
      tests,
    ),
  );
  const shares = closed(weighed);
  const parts = breakdown.parts.map((part, index): TablePart => {
    const share = shares[index];
    return share === undefined ? part : partAfterTests(part, share, tests, summary);
  });
  const counts = shares.slice(0, -1).map(({ testsCount }) => testsCount);
  const ownTests = {
    tests: summary.tests,
    upTo: summary.upTo,
    leastCount: percentOf(Math.min(...counts)),
    mostCount: percentOf(Math.max(...counts)),
  };
  return { ...breakdown, parts, loss: shares.at(-1)?.combined ?? breakdown.loss, ownTests, shares };
}

interface PublishedShare {
  readonly of: string;
  readonly published: Decimal;
  readonly publishedError: number;
}

function publishedShares({ parts, loss }: TableBreakdown): PublishedShare[] {
  return [
    ...parts.map(({ part, fraction, spread, basis }) => ({
      of: part,
      published: fraction,
      publishedError: Math.max(
        LEAST_SPREAD,
        spread?.toNumber() ?? shareError(fraction, ERROR_OF_PUBLISHED[basis]),
      ),
    })),
    {
      of: LOSS,
      published: loss,
      publishedError: Math.max(LEAST_SPREAD, shareError(loss, ERROR_OF_PUBLISHED["common practice"])),
    },
  ];
}

function weighedTogether(
  share: PublishedShare,
  tested: ShareSummary | undefined,
  tests: readonly YieldTest[],
): Omit<CombinedShare, "combined"> & { readonly mean: number } {
  if (tested === undefined) throw new RangeError(`no test weighs ${share.of}`);
  const effective = effectiveCount(pairsOf(share.of, tests).map(({ whole }) => whole));
  return {
    ...share,
    tested: tested.fraction,
    ...weighTogether({
      published: share.published.toNumber(),
      publishedError: share.publishedError,
      tested: tested.fraction,
      standardError: tested.standardError,
      guessedVariance: guessOfTests(share.published) ** 2 / effective,
      tests: tests.length,
    }),
  };
}

/** Makes the shares add up to one. A loss that neither side has seen stays nothing. */
function closed(weighed: readonly ReturnType<typeof weighedTogether>[]): CombinedShare[] {
  const variances = weighed.map(({ mean, standardError }) => (mean === 0 ? 0 : standardError ** 2));
  const short = 1 - weighed.reduce((sum, { mean }) => sum + mean, 0);
  const freedom = variances.reduce((sum, variance) => sum + variance, 0);
  const adjusted = weighed.map(({ of, mean }, index) => {
    const value = mean + (short * (variances[index] ?? 0)) / freedom;
    return Math.max(value, of === LOSS ? 0 : LEAST_PART);
  });
  const rounded = splitByShares(
    PARTS_PER_MILLION,
    adjusted.map((value) => new Decimal(value.toFixed(12))),
  );
  return weighed.map(({ mean: _, ...share }, index) => ({
    ...share,
    combined: new Decimal((rounded[index] ?? 0n).toString()).div(PARTS_PER_MILLION.toString()),
    standardError: share.standardError * Math.sqrt(1 - (variances[index] ?? 0) / freedom),
  }));
}

/** Twice the rounding step: a part that the breakdown gives never vanishes. */
const LEAST_PART = 2e-6;

function partAfterTests(
  part: TablePart,
  { combined, standardError, testsCount }: CombinedShare,
  tests: readonly YieldTest[],
  { upTo }: TestSummary,
): TablePart {
  const variance = steadied(
    guessOfTests(part.fraction) ** 2,
    varianceOfUnits(
      pairsOf(part.part, tests),
      tests.map(({ units }) => units),
    ),
    tests.length - 1,
  );
  return {
    ...part,
    fraction: combined,
    spread: new Decimal(Math.sqrt(variance).toFixed(6)),
    standardError: new Decimal(standardError.toFixed(6)),
    tests: tests.length,
    source: `own tests n=${tests.length} up to ${upTo}, combined with ${part.source} (tests count ${percentOf(testsCount)} %)`,
    basis: "own test",
  };
}

/** How far tests are taken to differ in a share before they tell. */
function guessOfTests(share: Decimal): number {
  return Math.max(LEAST_SPREAD, shareError(share, SPREAD_OF_TESTS));
}

function percentOf(fraction: number): number {
  return Math.round(fraction * 100);
}

function shareError(fraction: Decimal, factor: number): number {
  const share = fraction.toNumber();
  return factor * Math.sqrt(share * (1 - share));
}

function refuseOtherParts({ name, parts }: TableBreakdown, tests: readonly YieldTest[]): void {
  const given = parts.map(({ part }) => part);
  for (const test of tests) {
    const other = test.parts.find(({ part }) => !given.includes(part));
    if (other !== undefined)
      throw new RangeError(`${name} gives no ${other.part}, which a test of ${test.date} weighs`);
  }
}
