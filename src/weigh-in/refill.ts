import type { PlanJson } from "../contract/index.js";
import { withStockOf } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import type { Problem, Source } from "../reading/index.js";
import type { Note, Sheet } from "./book.js";
import { rowsOfPlan } from "./happened.js";
import { readWeighIn } from "./read.js";
import { type Row, rowKey } from "./row.js";
import { exactText, NOTHING_FILLED, writeWeighIn } from "./write.js";

/** A row of a weigh-in as it stands in its file, by a key that stays its own. */
export interface FilledRow extends Note {
  readonly row: Row;
  readonly key: string;
  readonly actual: string;
}

/** What is written anew into one row; what is not stated stays. */
export interface Change {
  readonly actual?: string;
  readonly reason?: string;
}

/** The rows of a weigh-in file, filled in or blank. With problems where the file cannot be read as it is. */
export function filledRows(
  plan: PlanJson,
  scenario: Scenario,
  weighIn: Source,
  planFile: string,
): { rows: readonly FilledRow[]; problems: readonly Problem[] } {
  const read = sheetOf(plan, scenario, weighIn, planFile);
  if (read.sheet === null) return { rows: [], problems: read.problems };
  const { sheet } = read;
  return { rows: sheet.rows.map((row) => filledRow(row, sheet, scenario)), problems: read.problems };
}

/**
 * The text of a weigh-in file with some rows written anew, and by their keys what is wrong with those. Rows that
 * change are signed and timed.
 */
export function refilled(
  plan: PlanJson,
  scenario: Scenario,
  weighIn: Source,
  {
    changes,
    by,
    time,
    planFile,
  }: { changes: ReadonlyMap<string, Change>; by: string; time: string; planFile: string },
): { text: string; errors: ReadonlyMap<string, string>; problems: readonly Problem[] } {
  const { rows, problems } = filledRows(plan, scenario, weighIn, planFile);
  if (problems.length > 0) return { text: weighIn.text, errors: new Map(), problems };
  const byRow = new Map(rows.map((filled) => [filled.row, filled]));
  const text = writeWeighIn(
    rows.map(({ row }) => row),
    scenario,
    (row) => {
      const filled = byRow.get(row);
      const change = filled === undefined ? undefined : changes.get(filled.key);
      const note = filled ?? NOTHING_FILLED.note;
      const actual = change?.actual ?? filled?.actual ?? "";
      if (change === undefined) return { actual, note };
      const signed = change.actual === undefined || actual === "" ? note : { by, time };
      return { actual, note: { ...note, ...signed, reason: change.reason ?? note.reason } };
    },
  );
  const again = sheetOf(plan, scenario, { file: weighIn.file, text }, planFile);
  const errors = new Map(
    again.problems.map(({ line, what, remedy }) => [rows[line - 2]?.key ?? "", `${what}. ${remedy}`]),
  );
  return { text, errors, problems: [] };
}

function sheetOf(
  plan: PlanJson,
  scenario: Scenario,
  weighIn: Source,
  planFile: string,
): { sheet: Sheet | null; problems: readonly Problem[] } {
  const rows = rowsOfPlan(plan, scenario, planFile);
  return Array.isArray(rows)
    ? readWeighIn(weighIn, rows, withStockOf(plan, scenario))
    : { sheet: null, problems: [rows] };
}

function filledRow(row: Row, { readings, notes }: Sheet, scenario: Scenario): FilledRow {
  const value = readings.get(row)?.value;
  const note = notes.get(row) ?? NOTHING_FILLED.note;
  return {
    row,
    key: rowKey(row),
    actual: value === undefined ? "" : exactText(row, value, scenario),
    ...note,
  };
}
