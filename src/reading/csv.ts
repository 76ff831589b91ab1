import { CsvError, parse } from "csv-parse/sync";
import { codeOf, composed, uncleanIn } from "./clean.js";
import { withoutGuard } from "./csv-cell.js";
import { CsvPlaces } from "./csv-places.js";
import { didYouMean } from "./did-you-mean.js";
import { MOST } from "./limits.js";
import { isLongerThan, withLineFeeds } from "./lines.js";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, type Source, tooLarge } from "./source.js";
import { words } from "./wording.js";

export interface CsvTable {
  readonly rows: readonly CsvRow[];
  /** Between its cells: a comma, or the semicolon or tab of a spreadsheet where commas are for decimals. */
  readonly separator: Separator;
  readonly problems: readonly Problem[];
}

const SEPARATORS = [",", ";", "\t"] as const;
export type Separator = (typeof SEPARATORS)[number];

export interface CsvRow {
  readonly position: Position;
  /** The trimmed text of a cell and where it begins; empty at the row's start where the table lacks the column. */
  cell(column: string): CsvCell;
}

export interface CsvCell {
  readonly text: string;
  readonly position: Position;
}

export interface CsvColumns {
  readonly required: readonly string[];
  readonly optional: readonly string[];
}

/**
 * Reads CSV (RFC 4180) with a heading row, as spreadsheets save it too: with semicolons or tabs, with rows and
 * columns that hold nothing. Columns may stand in any order; a missing or unknown one is a problem, and so is
 * a letter that was lost because the file is not UTF-8, or one that does not show. A table without all its required
 * columns gives no rows, and a row of the wrong length is left out.
 */
export function readCsv(read: Source, columns: CsvColumns): CsvTable {
  const source = withLineFeeds(read);
  const separator = separatorOf(source.text);
  const without = (...problems: Problem[]): CsvTable => ({ rows: [], separator, problems });
  if (source.text.length > MOST.bytes) return without(tooLarge(source.file, source.text.length));
  if (isLongerThan(source.text, MOST.lines))
    return without({
      file: source.file,
      line: MOST.lines + 1,
      column: 1,
      ...words.tooManyLines("table", MOST.lines),
    });
  const places = new CsvPlaces(source, separator);
  let records: CsvRecord[];
  try {
    records = recordsOf(source.text, separator);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const said = typeof error.lines === "number" ? error.lines : 1;
    const line = Math.min(said, source.text.split("\n").length);
    const place = { file: source.file, line, column: 1 };
    return without({ ...(places.openQuote() ?? place), ...words.csvSyntax(error.code, error.message) });
  }
  const [heading, ...body] = withoutEmptyColumns(records);
  if (heading === undefined) {
    const remedy = `Begin with the heading row: ${columns.required.join(",")}`;
    return without({ file: source.file, line: 1, column: 1, ...words.emptyFile(remedy) });
  }
  const lost = lostLetter(source.text, heading, records, places);
  if (lost !== null) return without(lost);
  const problems = headingProblems(heading, columns, places);
  if (problems.length > 0) return without(...problems);
  const whole = records.filter(({ texts }) => texts.length === heading.texts.length);
  problems.push(...faultsOfCells(source.text, whole, places));
  const names = new Map(heading.texts.map((text, index) => [text, index]));
  const rows = body.flatMap((record): CsvRow[] => {
    if (record.texts.length === heading.texts.length) return [new Row(record, names, places)];
    const what = words.rowLength(record.texts.length, heading.texts.length);
    problems.push({ ...places.at(record.at, 0), ...what });
    return [];
  });
  return { rows, separator, problems };
}

/** The cells of a record, and which of the file's it is. */
interface CsvRecord {
  readonly at: number;
  readonly texts: readonly string[];
}

class Row implements CsvRow {
  constructor(
    private readonly record: CsvRecord,
    private readonly names: ReadonlyMap<string, number>,
    private readonly places: CsvPlaces,
  ) {}

  get position(): Position {
    return this.positionOf(0);
  }

  cell(column: string): CsvCell {
    const index = this.names.get(column);
    return new Cell(index === undefined ? "" : (this.record.texts[index] ?? ""), this, index ?? 0);
  }

  positionOf(index: number): Position {
    return this.places.at(this.record.at, index);
  }
}

class Cell implements CsvCell {
  constructor(
    readonly text: string,
    private readonly row: Row,
    private readonly index: number,
  ) {}

  get position(): Position {
    return this.row.positionOf(this.index);
  }
}

/** What stands most often in the heading row. */
function separatorOf(text: string): Separator {
  const end = text.search(/[\r\n]/);
  const heading = (end < 0 ? text : text.slice(0, end)).slice(0, MOST.text);
  const count = (separator: Separator) => heading.split(separator).length;
  return [...SEPARATORS].sort((a, b) => count(b) - count(a))[0] ?? ",";
}

/** The records that hold anything. */
function recordsOf(text: string, separator: Separator): CsvRecord[] {
  const options = {
    bom: true,
    relax_column_count: true,
    skip_empty_lines: true,
    delimiter: separator,
    // Left to itself it takes the first for all, and a file put together from two may have both.
    record_delimiter: ["\r\n", "\n"],
  };
  return parse(text, options)
    .map((cells, at) => ({ at, texts: cells.map((cell) => composed(withoutGuard(cell.trim()))) }))
    .filter(({ texts }) => texts.some((cell) => cell !== ""));
}

/** Without the last columns that have no heading and no cell that holds anything; rows of another length stay. */
function withoutEmptyColumns(records: readonly CsvRecord[]): readonly CsvRecord[] {
  const heading = records[0]?.texts ?? [];
  const columns = heading.findLastIndex((text) => text !== "") + 1;
  if (columns === heading.length) return records;
  return records.map(({ at, texts }) =>
    texts.length === heading.length && texts.slice(columns).every((text) => text === "")
      ? { at, texts: texts.slice(0, columns) }
      : { at, texts },
  );
}

/** A letter that another way of writing characters was taken for; of UTF-16, a NUL stands for every second one. */
function lostLetter(
  text: string,
  heading: CsvRecord,
  records: readonly CsvRecord[],
  places: CsvPlaces,
): Problem | null {
  const nul = heading.texts.findIndex((cell) => cell.includes("\0"));
  if (nul >= 0) return { ...places.at(heading.at, nul), ...words.notUtf8("CSV") };
  if (!text.includes("\uFFFD")) return null;
  for (const { at, texts } of records) {
    const cell = texts.findIndex((each) => each.includes("\uFFFD"));
    if (cell >= 0) return { ...places.at(at, cell), ...words.notUtf8("CSV") };
  }
  return null;
}

function faultsOfCells(text: string, records: readonly CsvRecord[], places: CsvPlaces): Problem[] {
  const isClean = uncleanIn(text.replace(/^\uFEFF/, "")) === null;
  return records.flatMap(({ at, texts }) =>
    texts.flatMap((cell, index) => {
      const character = isClean ? null : uncleanIn(cell);
      if (character !== null)
        return [{ ...places.at(at, index), ...words.uncleanCharacter(codeOf(character)) }];
      return cell.length > MOST.text ? [{ ...places.at(at, index), ...words.longText(cell, MOST.text) }] : [];
    }),
  );
}

function headingProblems(heading: CsvRecord, columns: CsvColumns, places: CsvPlaces): Problem[] {
  const known = [...columns.required, ...columns.optional];
  const names = heading.texts;
  if (names.length > MOST.columns)
    return [{ ...places.at(heading.at, 0), ...words.tooManyColumns(names.length, MOST.columns, known) }];
  const unknown = names.filter((text) => !known.includes(text));
  const missing = columns.required.filter((name) => !names.includes(name));
  const taken = missing.map((name) => didYouMean(name, unknown));
  const at = (index: number) => places.at(heading.at, Math.max(0, index));
  return [
    ...missing.map((name, index) => {
      const meant = taken[index] ?? null;
      return { ...at(meant === null ? 0 : names.indexOf(meant)), ...words.missingColumn(name, meant) };
    }),
    ...names.flatMap((text, index) =>
      known.includes(text) || taken.includes(text)
        ? []
        : [{ ...at(index), ...words.unknownColumn(text, known) }],
    ),
    ...names.flatMap((text, index) =>
      known.includes(text) && names.indexOf(text) < index
        ? [{ ...at(index), ...words.columnTwice(text) }]
        : [],
    ),
  ].sort(inFileOrder);
}
