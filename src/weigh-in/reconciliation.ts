import type { Scenario } from "../kitchen/index.js";
import { type Decimal, milligrams, scaleWithStep, splitByShares } from "../quantity/index.js";
import type { Position, Problem, Wording } from "../reading/index.js";
import type { Row, RowName } from "./row.js";

/** A figure as it was written down, and where. */
export interface Reading {
  readonly value: bigint;
  readonly place: Position;
}

/** What was written beside a row. */
export interface Note {
  readonly reason: string;
  readonly by: string;
  readonly time: string;
}

/** The weigh-in as read: every row planned or added, with what was written into it. */
export interface Sheet {
  readonly file: string;
  /** The hash of the plan it says it is of; null where it does not. */
  readonly ofPlan: string | null;
  readonly rows: readonly Row[];
  readonly readings: ReadonlyMap<Row, Reading>;
  readonly notes: ReadonlyMap<Row, Note>;
  /** Where each row stands in the file; a row taken out of it stands nowhere. */
  readonly places: ReadonlyMap<Row, Position>;
}

/** The sheet while it is reckoned: what each row comes to, and what does not close. */
export class Reconciliation {
  readonly actual = new Map<Row, bigint>();
  readonly problems: Problem[] = [];
  /** Not weighed, but told by what was: its value before the balances are drawn. */
  readonly known = new Map<Row, bigint>();

  constructor(
    readonly sheet: Sheet,
    readonly scenario: Scenario,
  ) {}

  rows(what: RowName["what"], matches: Partial<RowName> = {}): Row[] {
    const wanted = Object.entries(matches) as [keyof RowName, unknown][];
    return this.sheet.rows.filter(
      (row) => row.what === what && wanted.every(([key, value]) => row[key] === value),
    );
  }

  isWeighed(row: Row): boolean {
    return this.sheet.readings.has(row);
  }

  /** What was weighed, or is known from other weighings; null where the row is blank. */
  given(row: Row): bigint | null {
    return this.sheet.readings.get(row)?.value ?? this.known.get(row) ?? null;
  }

  /** What the row came to; what was planned until that is known. */
  value(row: Row): bigint {
    return this.actual.get(row) ?? this.given(row) ?? row.planned;
  }

  /** By how much weighed rows were moved to close what was reckoned before: the next may differ by as much again. */
  moved(rows: readonly Row[]): bigint {
    return sum(
      rows.map((row) => {
        const reading = this.sheet.readings.get(row);
        const by = reading === undefined ? 0n : this.value(row) - reading.value;
        return by < 0n ? -by : by;
      }),
    );
  }

  /** A weight as it is said of a gap: in the scale's unit, with no more decimals than it shows. */
  readonly said = (weight: bigint): string => {
    const { read, places, unit } = scaleWithStep(this.scenario.scaleStep);
    return `${read(milligrams(weight)).toDecimalPlaces(places).toFixed()} ${unit}`;
  };

  problem(rows: readonly Row[], wording: Wording): void {
    const { readings, places, file } = this.sheet;
    const read = rows.map((row) => readings.get(row)?.place).find((place) => place !== undefined);
    const written = rows.map((row) => places.get(row)).find((place) => place !== undefined);
    this.problems.push({ ...(read ?? written ?? { file, line: 1, column: 1 }), ...wording });
  }

  lineOf(row: Row): number | null {
    return this.sheet.places.get(row)?.line ?? null;
  }
}

export function sum(values: readonly bigint[]): bigint {
  return values.reduce((total, value) => total + value, 0n);
}

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
