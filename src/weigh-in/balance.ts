import { type Decimal, milligrams, splitByShares } from "../quantity/index.js";
import { sum } from "./book.js";
import type { Row } from "./row.js";

/** One way out of a lot: what it took, or what it would have taken. */
export interface Outlet {
  readonly row: Row;
  readonly given: bigint | null;
  readonly expected: bigint;
  /** Blanks are filled from the lowest rank up; what is left over goes to the highest. */
  readonly rank: number;
}

/** What each way out took, or by how much they do not close: what came in less what went out. */
export type Shared =
  | { readonly kind: "closed"; readonly values: ReadonlyMap<Row, bigint> }
  | { readonly kind: "gap"; readonly gap: bigint };

/**
 * Shares what there is over the ways out. What was weighed stands; blanks of a lower rank get what was expected of
 * them, and those of the highest rank the rest, in proportion; where too little is there, the highest go without
 * first. Where nothing is blank, a gap of no more than `slack` goes to the largest of the highest rank; a larger one
 * is handed back.
 */
export function shareOut(available: bigint, outlets: readonly Outlet[], slack: bigint): Shared {
  const values = new Map<Row, bigint>();
  for (const { row, given } of outlets) values.set(row, given ?? 0n);
  const blanks = outlets.filter(({ given }) => given === null);
  const left = available - sum([...values.values()]);
  if (left < 0n || (blanks.length === 0 && left !== 0n)) {
    const size = left < 0n ? -left : left;
    const taker = [...outlets]
      .filter(({ given }) => (given ?? 0n) + left >= 0n && given !== null)
      .sort((a, b) => b.rank - a.rank || ((b.given ?? 0n) > (a.given ?? 0n) ? 1 : -1))[0];
    if (size > slack || taker === undefined) return { kind: "gap", gap: left };
    values.set(taker.row, (taker.given ?? 0n) + left);
    return { kind: "closed", values };
  }
  const ranks = [...new Set(blanks.map(({ rank }) => rank))].sort((a, b) => a - b);
  let rest = left;
  ranks.forEach((rank, index) => {
    const here = blanks.filter((blank) => blank.rank === rank);
    const expected = sum(here.map((blank) => blank.expected));
    const share = index === ranks.length - 1 || expected > rest ? rest : expected;
    const pieces = inProportion(
      share,
      here.map((blank) => blank.expected),
    );
    here.forEach(({ row }, at) => {
      values.set(row, pieces[at] ?? 0n);
    });
    rest -= share;
  });
  return { kind: "closed", values };
}

/** Split by shares without loss; where all shares are nothing, the last takes it. */
export function inProportion(whole: bigint, shares: readonly (bigint | Decimal)[]): bigint[] {
  const isNothing = shares.every((share) => (typeof share === "bigint" ? share === 0n : share.isZero()));
  if (isNothing) return shares.map((_, index) => (index === shares.length - 1 ? whole : 0n));
  return splitByShares(milligrams(whole), shares);
}

/** What half the scale's step for each weighing explains, rounded down. */
export function slackOf(weighings: number, step: bigint): bigint {
  return (BigInt(weighings) * step) / 2n;
}
