import { CsvError, parse } from "csv-parse/sync";
import { z } from "zod";
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
 * problem. A table without all its required columns gives no rows, and a row of the wrong length is left out.
 */
export function readCsv(source: Source, columns: CsvColumns): CsvTable {
  let records: RawRecord[];
  try {
    records = parseRecords(source.text);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const lines = error.lines;
    const line = typeof lines === "number" ? lines : 1;
    return {
      rows: [],
      problems: [{ file: source.file, line, column: 1, ...words.csvSyntax(error.message) }],
    };
  }
  const [heading, ...body] = placed(records, source.file);
  if (heading === undefined) {
    const remedy = `Begin with the heading row: ${columns.required.join(",")}`;
    return { rows: [], problems: [{ file: source.file, line: 1, column: 1, ...words.emptyFile(remedy) }] };
  }
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

interface RawRecord {
  readonly record: readonly string[];
  /** The record as written, with the empty lines before it. */
  readonly raw: string;
}

const RAW_RECORDS = z.array(z.object({ record: z.array(z.string()), raw: z.string() }));

function parseRecords(text: string): RawRecord[] {
  return RAW_RECORDS.parse(
    parse(text, { bom: true, raw: true, relax_column_count: true, skip_empty_lines: true }),
  );
}

/** The records with the place of each cell, found by walking through what was written. */
function placed(records: readonly RawRecord[], file: string): CsvCell[][] {
  let line = 1;
  return records.map(({ record, raw }) => {
    const starts: Position[] = [];
    let column = 1;
    let quoted = false;
    let fresh = true;
    for (const character of raw) {
      if (fresh && character !== "\n" && character !== "\r") {
        starts.push({ file, line, column });
        fresh = false;
      }
      if (character === '"') quoted = !quoted;
      if (character === "," && !quoted) fresh = true;
      if (character === "\n") line += 1;
      column = character === "\n" ? 1 : column + 1;
    }
    if (fresh) starts.push({ file, line: raw.endsWith("\n") ? line - 1 : line, column });
    return record.map((text, index) => ({
      text: text.trim(),
      position: starts[index] ?? { file, line, column: 1 },
    }));
  });
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
