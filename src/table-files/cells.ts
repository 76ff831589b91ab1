import { Decimal, grams, type Weight } from "../quantity/index.js";
import {
  type CsvCell,
  type CsvColumns,
  type CsvRow,
  type Problem,
  readCsv,
  type Source,
  type Wording,
} from "../reading/index.js";
import { words } from "./words.js";

/** Read in the source named; from memory of it; common practice, for want of a source; weighed in this kitchen. */
export const BASES = ["read", "memory", "common practice", "own test"] as const;
export type Basis = (typeof BASES)[number];

/** Where a figure comes from, as its row says. */
export interface Provenance {
  readonly source: string;
  readonly basis: Basis;
}

/** The cells of one row as values. What cannot be read is reported, and read as null. */
export class RowCells {
  private readonly report: (problem: Problem) => void;

  constructor(
    readonly row: CsvRow,
    problems: Problem[],
  ) {
    this.report = (problem) => problems.push(problem);
  }

  problem(column: string, wording: Wording): null {
    this.report({ ...this.row.cell(column).position, ...wording });
    return null;
  }

  optionalText(column: string): string | null {
    return this.row.cell(column).text || null;
  }

  text(column: string): string | null {
    return this.optionalText(column) ?? this.problem(column, words.empty(column));
  }

  /** Names with commas between them, or what else parts them. */
  names(column: string, separator = ","): string[] {
    return this.row
      .cell(column)
      .text.split(separator)
      .map((name) => name.trim())
      .filter((name) => name !== "");
  }

  /** The same, at least one. */
  someNames(column: string, separator = ","): string[] {
    const names = this.names(column, separator);
    if (names.length === 0) this.problem(column, words.empty(column));
    return names;
  }

  oneOf<T extends string>(column: string, known: readonly T[]): T | null {
    const { text } = this.row.cell(column);
    return (
      known.find((word) => word === text) ?? this.problem(column, words.unknownWord(column, text, known))
    );
  }

  optionalOneOf<T extends string>(column: string, known: readonly T[]): T | null {
    return this.row.cell(column).text === "" ? null : this.oneOf(column, known);
  }

  /** A decimal above 0 and up to `most`. */
  number(column: string, most: number): Decimal | null {
    const value = plainNumber(this.row.cell(column));
    if (value === null || value.lte(0) || value.gt(most)) {
      return this.problem(column, words.outOfRange(column, this.row.cell(column).text, most));
    }
    return value;
  }

  optionalNumber(column: string, most: number): Decimal | null {
    return this.row.cell(column).text === "" ? null : this.number(column, most);
  }

  /** A percent above 0 as a fraction: 61 is 0.61. */
  fraction(column: string, mostPercent: number): Decimal | null {
    return this.number(column, mostPercent)?.div(100) ?? null;
  }

  optionalFraction(column: string): Decimal | null {
    return this.optionalNumber(column, 100)?.div(100) ?? null;
  }

  optionalWhole(column: string, most: number): number | null {
    const { text } = this.row.cell(column);
    if (text === "") return null;
    const value = plainNumber(this.row.cell(column));
    return value?.isInteger() && value.gt(0) && value.lte(most)
      ? value.toNumber()
      : this.problem(column, words.notWhole(column, text, most));
  }

  whole(column: string, most: number): number | null {
    return this.text(column) === null ? null : this.optionalWhole(column, most);
  }

  grams(column: string): Weight | null {
    const value = this.number(column, 50_000);
    return value === null ? null : grams(value);
  }

  optionalGrams(column: string): Weight | null {
    return this.row.cell(column).text === "" ? null : this.grams(column);
  }

  provenance(sourceColumn = "source", basisColumn = "basis"): Provenance | null {
    return this.provenanceAmong(BASES, sourceColumn, basisColumn);
  }

  /** The same where the table takes some bases only. */
  provenanceAmong<B extends Basis>(
    bases: readonly B[],
    sourceColumn = "source",
    basisColumn = "basis",
  ): { source: string; basis: B } | null {
    const source = this.text(sourceColumn);
    const basis = this.oneOf(basisColumn, bases);
    return source === null || basis === null ? null : { source, basis };
  }
}

function plainNumber({ text }: CsvCell): Decimal | null {
  return /^\d+(\.\d+)?$/.test(text) ? new Decimal(text) : null;
}

/** Keys by which a table may not hold two rows. */
export class SeenOnce {
  private readonly rows = new Map<string, CsvRow>();

  /** Reports a key met before; true where it is new. */
  add(cells: RowCells, column: string, ...key: readonly (string | null)[]): boolean {
    const name = key.join(", ");
    const first = this.rows.get(name);
    if (first !== undefined) {
      cells.problem(column, words.twice(name, first.position.line));
      return false;
    }
    this.rows.set(name, cells.row);
    return true;
  }
}

/** The rows of a table as cells; none of a table that is not there. */
export function rowsOf(source: Source | undefined, columns: CsvColumns, problems: Problem[]): RowCells[] {
  if (source === undefined) return [];
  const table = readCsv(source, columns);
  problems.push(...table.problems);
  return table.rows.map((row) => new RowCells(row, problems));
}

/** Reports each of these that has no row in a table that is there. */
export function needRows(
  source: Source | undefined,
  wanted: readonly string[],
  has: (name: string) => boolean,
  problems: Problem[],
): void {
  if (source === undefined) return;
  for (const name of wanted.filter((each) => !has(each)))
    problems.push({ file: source.file, line: 1, column: 1, ...words.withoutRow(name) });
}
