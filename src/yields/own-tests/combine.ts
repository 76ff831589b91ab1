import { Decimal, milligrams, splitByShares } from "../../quantity/index.js";
import { ERROR_OF_PUBLISHED, SPREAD_OF_TESTS } from "../spread.js";
import { grouped } from "../table-reading/groups.js";
import { nameOf, type TableBreakdown, type TableItem, type TablePart, type YieldTables } from "../tables.js";
import { effectiveCount, shrunkVariance, varianceOfUnits, weighTogether } from "./statistics.js";
import {
  LOSS,
  pairsOf,
  type ShareSummary,
  summariseTests,
  type TestSummary,
  testsByCutting,
} from "./summary.js";
import { unitWeightAfterTests } from "./unit-weight.js";
import type { YieldTest } from "./yield-test.js";

/**
 * The published tables with the kitchen's own tests weighed in; what a test changes has the basis "own test". Tests of
 * what the tables do not hold change nothing. Hand in the published tables, not the result of an earlier call: its
 * tests would count twice.
 */
export function tablesWithTests(tables: YieldTables, tests: readonly YieldTest[]): YieldTables {
  const byCutting = testsByCutting(tests);
  const byForm = new Map(
    grouped(tests, ({ item, form }) => nameOf(item, form)).map(({ key, rows }) => [key, rows]),
  );
  return {
    ...tables,
    items: tables.items.map((item) => ({
      ...item,
      ...unitAfterTests(item, byForm.get(nameOf(item.name, item.form)) ?? []),
      breakdowns: item.breakdowns.map((breakdown) => {
        const own = byCutting.get(nameOf(item.name, item.form, breakdown.name));
        if (own === undefined) return breakdown;
        const { shares: _, ...after } = yieldsAfterTests(breakdown, own);
        return after;
      }),
    })),
  };
}

function unitAfterTests(item: TableItem, tests: readonly YieldTest[]): Partial<TableItem> {
  const after = unitWeightAfterTests(item, tests);
  if (after === null) return {};
  const percent = Math.round(after.testsCount * 100);
  return {
    unitWeight: after.combined,
    unitSpread: after.unitSpread,
    source: `own tests n=${after.tests} up to ${after.upTo}, combined with ${item.source} (tests count ${percent} %)`,
    basis: "own test",
  };
}

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

/** No spread is taken for less than this, a percent of the weight bought. Our choice. */
const LEAST_SPREAD = 0.01;

const PARTS_PER_MILLION = milligrams(1_000_000n);

/**
 * A published breakdown after the kitchen's own tests of it: each share by `weighTogether`, then all made to add up to
 * one. Classes, keeping and pieces stay as published. A RangeError where a test names other parts.
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

/** A published spread says how kitchens differ, so it is not divided by the tests behind it. */
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

/**
 * Shares out by variance what the shares are short of one, and rounds them together to a millionth. A loss that
 * neither side has seen stays nothing. Source, from memory: adjustment to a condition by variances, Deming,
 * Statistical Adjustment of Data (1943).
 */
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
  const variance = shrunkVariance(
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
