import type { Scenario } from "../kitchen/index.js";
import { milligrams, scaleWithStep } from "../quantity/index.js";
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
export class Book {
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
