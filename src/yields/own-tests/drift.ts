import { grouped } from "../table-reading/groups.js";
import { pairsOf, resolutionOf } from "./pairs.js";
import { chanceBeyond, effectiveCount, type Pair, ratioEstimate, spreadOf } from "./statistics.js";
import type { YieldTest } from "./yield-test.js";

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
 * Compares each supplier, and each month, with all other tests where both sides have three tests or more.
 * Difference of the ratio estimates; standard error from the spread within the two sides, pooled; flagged where
 * Student's t with the tests less two degrees of freedom would go so far by chance less than once in twenty,
 * counting every comparison by suppliers, or by months, that is made (Bonferroni). Sources: two-sample t with a
 * pooled variance, NIST/SEMATECH e-Handbook 1.3.5.3; Bonferroni's method, 7.4.7.3 (both from memory).
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
