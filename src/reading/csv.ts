import { CsvError, parse } from "csv-parse/sync";
import { didYouMean } from "./did-you-mean.js";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, type Source } from "./source.js";
import * as words from "./wording.js";

export interface CsvTable {
  readonly rows: readonly CsvRow[];
  readonly problems: readonly Problem[];
}

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
 * Reads CSV (RFC 4180) with a heading row. Columns may stand in any order; a missing or unknown one is a
 * problem, and so is a letter that was lost because the file is not UTF-8. A table without all its required columns gives no rows, and a row of the wrong length is left out.
 */
export function readCsv(source: Source, columns: CsvColumns): CsvTable {
  let records: CsvCell[][];
  try {
    records = placed(source);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error.lines === "number" ? error.lines : 1;
    return {
      rows: [],
      problems: [{ file: source.file, line, column: 1, ...words.csvSyntax(error.code, error.message) }],
    };
  }
  const [heading, ...body] = records;
  if (heading === undefined) {
    const remedy = `Begin with the heading row: ${columns.required.join(",")}`;
    return { rows: [], problems: [{ file: source.file, line: 1, column: 1, ...words.emptyFile(remedy) }] };
  }
  const lost = records.flat().find(({ text }) => text.includes("\uFFFD"));
  if (lost !== undefined) return { rows: [], problems: [{ ...lost.position, ...words.notUtf8() }] };
  const problems = headingProblems(heading, columns);
  if (problems.length > 0) return { rows: [], problems };
  const rows = body.flatMap((cells): CsvRow[] => {
    const position = cells[0]?.position ?? { file: source.file, line: 1, column: 1 };
    if (cells.length !== heading.length) {
      problems.push({ ...position, ...words.rowLength(cells.length, heading.length) });
      return [];
    }
    const byName = new Map(heading.map(({ text }, index) => [text, cells[index]]));
    return [{ position, cell: (column) => byName.get(column) ?? { text: "", position } }];
  });
  return { rows, problems };
}

/** The cells of each record that is not an empty line, with the place where each begins. */
function placed(source: Source): CsvCell[][] {
  const records = parse(source.text, { bom: true, relax_column_count: true, skip_empty_lines: true });
  const starts = cellStarts(source);
  return records.map((record, row) =>
    record.map((text, index) => ({
      text: text.trim(),
      position: starts[row]?.[index] ?? { file: source.file, line: 1, column: 1 },
    })),
  );
}

/** Where the cells of each record begin, empty lines left out, in a text whose quotes are known to be sound. */
function cellStarts({ file, text }: Source): Position[][] {
  const records: Position[][] = [];
  let record: Position[] = [];
  let place = { file, line: 1, column: 1 };
  let quoted = false;
  let cellBegins = true;
  let empty = true;
  for (const character of text.replace(/^\uFEFF/, "")) {
    if (cellBegins) record.push(place);
    cellBegins = character === "," && !quoted;
    if (character === '"') quoted = !quoted;
    const lineEnds = character === "\n";
    if (!lineEnds && character !== "\r") empty = false;
    place = lineEnds
      ? { file, line: place.line + 1, column: 1 }
      : { file, line: place.line, column: place.column + 1 };
    if (!lineEnds || quoted) continue;
    if (!empty) records.push(record);
    record = [];
    cellBegins = true;
    empty = true;
  }
  if (cellBegins && !empty) record.push(place);
  return empty ? records : [...records, record];
}

function headingProblems(heading: readonly CsvCell[], columns: CsvColumns): Problem[] {
  const [first, second] = heading;
  const separator = second === undefined ? /[;\t]/.exec(first?.text ?? "")?.[0] : undefined;
  if (first !== undefined && separator !== undefined)
    return [{ ...first.position, ...words.otherSeparator(separator) }];
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
