import { Decimal, grams, type Weight } from "../quantity/index.js";
import type { CsvCell, CsvRow, Problem, Wording } from "../reading/index.js";
import { BASES, type Basis, type Provenance } from "./provenance.js";
import { words } from "./words.js";

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
