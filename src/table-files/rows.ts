import { type CsvColumns, type Problem, readCsv, type Source } from "../reading/index.js";
import { RowCells } from "./cells.js";
import { words } from "./words.js";

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
