import { milligrams, NO_WEIGHT, toGrams, total, type Weight } from "../../quantity/index.js";
import { grouped } from "../table-reading/groups.js";
import {
  chanceBeyond,
  effectiveCount,
  jackknife,
  modifiedZScores,
  type Pair,
  ratioEstimate,
  spreadOf,
} from "./statistics.js";
import { cuttingOf, type YieldTest } from "./yield-test.js";

/**
 * Beyond this modified z-score a value is called an outlier (NIST/SEMATECH e-Handbook 1.3.5.17, from memory). It is
 * a question to ask: of kitchens with eight usual tests it flags one in seven (simulated, normal scatter).
 */
export const OUTLYING = 3.5;
/** With fewer tests the median says too little of what is usual: our rule, no source. */
export const FEWEST_FOR_OUTLIERS = 5;

/**
 * Statistics over tests of one item, form and breakdown, fractions and errors of the AP weight; a part that some test
 * does not name weighed nothing in it. A RangeError for no tests, or for tests of different things.
 */
export function summariseTests(tests: readonly YieldTest[]) {
  const [first] = tests;
  if (first === undefined) throw new RangeError("no tests to summarise");
  const other = tests.find((test) => cuttingOf(test) !== cuttingOf(first));
  if (other !== undefined)
    throw new RangeError(`tests of ${cuttingOf(first)} and of ${cuttingOf(other)} are not of one thing`);
  const names = [...new Set(tests.flatMap(({ parts }) => parts.map(({ part }) => part))), LOSS];
  const dates = tests.map(({ date }) => date).sort();
  const apWeight = total(tests.map((test) => test.apWeight));
  const units = tests.reduce((count, test) => count + test.units, 0);
  return {
    item: first.item,
    form: first.form,
    breakdown: first.breakdown,
    tests: tests.length,
    units,
    apWeight,
    /** AP weight over units, to the nearest milligram. */
    unitWeight: milligrams((2n * apWeight + BigInt(units)) / (2n * BigInt(units))),
    from: dates[0] ?? "",
    upTo: dates.at(-1) ?? "",
    /** Each part, and last the cutting loss. */
    shares: names.map((of) => shareOf(of, tests)),
    outliers: names.flatMap((of) => outliersIn(of, tests)),
    drifts: driftsOf(tests, names),
  };
}

export type TestSummary = ReturnType<typeof summariseTests>;
export type ShareSummary = ReturnType<typeof shareOf>;

/** The tests grouped by item, form and breakdown, in the order these first appear. */
export function testsByCutting(tests: readonly YieldTest[]): ReadonlyMap<string, readonly YieldTest[]> {
  return new Map(grouped(tests, cuttingOf).map(({ key, rows }) => [key, rows]));
}

function shareOf(of: string, tests: readonly YieldTest[]) {
  const pairs = pairsOf(of, tests);
  return {
    of,
    fraction: ratioEstimate(pairs),
    standardError: jackknife(pairs, ratioEstimate)?.standardError ?? null,
    spread: spreadOf(pairs),
  };
}

/** Tests that lie far from the others in one share. They still count: whether one was a slip, the cook knows. */
function outliersIn(of: string, tests: readonly YieldTest[]) {
  if (tests.length < FEWEST_FOR_OUTLIERS) return [];
  const fractions = pairsOf(of, tests).map(({ part, whole }) => part / whole);
  const scores = modifiedZScores(fractions, resolutionOf(tests));
  return tests.flatMap((test, index) => {
    const modifiedZ = scores[index] ?? 0;
    return Math.abs(modifiedZ) > OUTLYING ? [{ test, of, fraction: fractions[index] ?? 0, modifiedZ }] : [];
  });
}

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

/** How one supplier's or one month's tests differ from all others in one share. */
export interface Drift {
  readonly by: "supplier" | "month";
  /** The supplier's name, or year-month. */
  readonly group: string;
  /** Full name of the part, or "loss". */
  readonly of: string;
  readonly tests: number;
  readonly otherTests: number;
  /** Fraction of the group less that of the others. */
  readonly difference: number;
  readonly standardError: number;
  /** How often so large a difference would come by chance somewhere among the comparisons made. */
  readonly chance: number;
  readonly flagged: boolean;
}

/** On each side of a comparison: our rule, no source. */
export const FEWEST_TESTS = 3;
const FLAGGED_BELOW = 0.05;

/**
 * Compares each supplier, and each month, with all other tests by two-sample t with a pooled variance (NIST/SEMATECH
 * e-Handbook 1.3.5.3). Flagged below once in twenty by chance, counting every comparison made (Bonferroni, 7.4.7.3;
 * both from memory).
 */
export function driftsOf(tests: readonly YieldTest[], names: readonly string[]): Drift[] {
  return [
    ...driftsBy("supplier", tests, names, ({ supplier }) => supplier),
    ...driftsBy("month", tests, names, ({ date }) => date.slice(0, "2026-10".length)),
  ];
}

function driftsBy(
  by: Drift["by"],
  tests: readonly YieldTest[],
  names: readonly string[],
  groupOf: (test: YieldTest) => string,
): Drift[] {
  const groups = grouped(tests, groupOf).sort((left, right) => (left.key < right.key ? -1 : 1));
  const compared = groups.filter(
    ({ rows }) => rows.length >= FEWEST_TESTS && tests.length - rows.length >= FEWEST_TESTS,
  );
  const isMirrored = groups.length === 2;
  const made = isMirrored ? compared.slice(0, 1) : compared;
  return made.flatMap(({ key: group, rows: inside }) => {
    const outside = tests.filter((test) => groupOf(test) !== group);
    return names.map((of) => ({ by, group, ...comparison(of, inside, outside, made.length * names.length) }));
  });
}

function comparison(
  of: string,
  inside: readonly YieldTest[],
  outside: readonly YieldTest[],
  comparisons: number,
): Omit<Drift, "by" | "group"> {
  const sides = [pairsOf(of, inside), pairsOf(of, outside)] as const;
  const difference = ratioEstimate(sides[0]) - ratioEstimate(sides[1]);
  const degreesOfFreedom = inside.length + outside.length - 2;
  const pooled = sides.reduce(
    (squares, side) => squares + ((spreadOf(side) ?? 0) ** 2 * (side.length - 1)) / degreesOfFreedom,
    0,
  );
  const spread = Math.max(Math.sqrt(pooled), resolutionOf([...inside, ...outside]));
  const standardError = spread * Math.sqrt(sides.reduce((inverse, side) => inverse + 1 / countOf(side), 0));
  const chance = Math.min(1, comparisons * chanceBeyond(difference / standardError, degreesOfFreedom));
  return {
    of,
    tests: inside.length,
    otherTests: outside.length,
    difference,
    standardError,
    chance,
    flagged: chance < FLAGGED_BELOW,
  };
}

function countOf(pairs: readonly Pair[]): number {
  return effectiveCount(pairs.map(({ whole }) => whole));
}
