import { CsvError, parse } from "csv-parse/sync";
import { didYouMean } from "./did-you-mean.js";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, type Source } from "./source.js";
import * as words from "./wording.js";

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
 * a letter that was lost because the file is not UTF-8. A table without all its required columns gives no rows, and a
 * row of the wrong length is left out.
 */
export function readCsv(source: Source, columns: CsvColumns): CsvTable {
  const separator = separatorOf(source.text);
  const without = (...problems: Problem[]): CsvTable => ({ rows: [], separator, problems });
  let records: CsvCell[][];
  try {
    records = placed(source, separator);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error.lines === "number" ? error.lines : 1;
    return without({ file: source.file, line, column: 1, ...words.csvSyntax(error.code, error.message) });
  }
  const [heading, ...body] = withoutEmptyColumns(records);
  if (heading === undefined) {
    const remedy = `Begin with the heading row: ${columns.required.join(",")}`;
    return without({ file: source.file, line: 1, column: 1, ...words.emptyFile(remedy) });
  }
  // A heading of UTF-16 holds a NUL for every letter.
  const lost =
    heading.find(({ text }) => text.includes("\0")) ??
    records.flat().find(({ text }) => text.includes("\uFFFD"));
  if (lost !== undefined) return without({ ...lost.position, ...words.notUtf8() });
  const problems = headingProblems(heading, columns);
  if (problems.length > 0) return without(...problems);
  const rows = body.flatMap((cells): CsvRow[] => {
    const position = cells[0]?.position ?? { file: source.file, line: 1, column: 1 };
    if (cells.length !== heading.length) {
      problems.push({ ...position, ...words.rowLength(cells.length, heading.length) });
      return [];
    }
    const byName = new Map(heading.map(({ text }, index) => [text, cells[index]]));
    return [{ position, cell: (column) => byName.get(column) ?? { text: "", position } }];
  });
  return { rows, separator, problems };
}

/** What stands most often in the heading row. */
function separatorOf(text: string): Separator {
  const [heading = ""] = text.split(/[\r\n]/, 1);
  const count = (separator: Separator) => heading.split(separator).length;
  return [...SEPARATORS].sort((a, b) => count(b) - count(a))[0] ?? ",";
}

/** The cells of each record that holds anything, with the place where each begins. */
function placed(source: Source, separator: Separator): CsvCell[][] {
  const options = { bom: true, relax_column_count: true, skip_empty_lines: true, delimiter: separator };
  const records = parse(source.text, options);
  const starts = cellStarts(source, separator);
  return records
    .map((record, row) =>
      record.map((text, index) => ({
        text: text.trim(),
        position: starts[row]?.[index] ?? { file: source.file, line: 1, column: 1 },
      })),
    )
    .filter((record) => record.some(({ text }) => text !== ""));
}

/** Without the last columns that have no heading and no cell that holds anything; rows of another length stay. */
function withoutEmptyColumns(records: readonly CsvCell[][]): CsvCell[][] {
  const [heading = []] = records;
  const columns = heading.findLastIndex(({ text }) => text !== "") + 1;
  return records.map((record) =>
    record.length === heading.length && record.slice(columns).every(({ text }) => text === "")
      ? record.slice(0, columns)
      : record,
  );
}

/** Where the cells of each record begin, empty lines left out, in a text whose quotes are known to be sound. */
function cellStarts({ file, text }: Source, separator: Separator): Position[][] {
  const records: Position[][] = [];
  let record: Position[] = [];
  let line = 1;
  let column = 1;
  let quoted = false;
  let cellBegins = true;
  let empty = true;
  for (const character of text.replace(/^\uFEFF/, "")) {
    if (cellBegins) record.push({ file, line, column });
    cellBegins = character === separator && !quoted;
    if (character === '"') quoted = !quoted;
    const lineEnds = character === "\n";
    if (!lineEnds && character !== "\r") empty = false;
    line += lineEnds ? 1 : 0;
    column = lineEnds ? 1 : column + 1;
    if (!lineEnds || quoted) continue;
    if (!empty) records.push(record);
    record = [];
    cellBegins = true;
    empty = true;
  }
  if (cellBegins && !empty) record.push({ file, line, column });
  return empty ? records : [...records, record];
}

function headingProblems(heading: readonly CsvCell[], columns: CsvColumns): Problem[] {
  const known = [...columns.required, ...columns.optional];
  const names = heading.map(({ text }) => text);
  const unknown = heading.filter(({ text }) => !known.includes(text));
  const missing = columns.required.filter((name) => !names.includes(name));
  const meantFor = (name: string) =>
    didYouMean(
      name,
      unknown.map(({ text }) => text),
    );
  const start = heading[0]?.position;
  const taken = missing.map(meantFor);
  return [
    ...missing.map((name) => {
      const meant = meantFor(name);
      const place = heading.find(({ text }) => text === meant)?.position ?? start;
      return { ...(place as Position), ...words.missingColumn(name, meant) };
    }),
    ...unknown
      .filter(({ text }) => !taken.includes(text))
      .map(({ text, position }) => ({ ...position, ...words.unknownColumn(text, known) })),
    ...heading
      .filter(({ text }, index) => known.includes(text) && names.indexOf(text) < index)
      .map(({ text, position }) => ({ ...position, ...words.columnTwice(text) })),
  ].sort(inFileOrder);
}
