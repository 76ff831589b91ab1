import { type PlanJson, planHash, withStockOf } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import type { Problem, Source } from "../reading/index.js";
import { rowsOfPlan } from "./happened.js";
import { readWeighIn } from "./read.js";
import type { Note, Sheet } from "./reconciliation.js";
import { type Row, rowKey } from "./row.js";
import { fileWords } from "./words.js";
import { exactText, NOTHING_FILLED, writeWeighIn } from "./write.js";

/** A row of a weigh-in as it stands in its file, by a key that stays its own and is of no other plan. */
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
  const of = shortHash(plan);
  return { rows: sheet.rows.map((row) => filledRow(row, sheet, { scenario, of })), problems: read.problems };
}

/**
 * The text of a weigh-in file with some rows written anew, and by their keys what is wrong with those: one of another
 * plan has no row here. Rows that change are signed and timed.
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
  const { sheet, problems } = sheetOf(plan, scenario, weighIn, planFile);
  if (sheet === null || problems.length > 0) return { text: weighIn.text, errors: new Map(), problems };
  const rows = sheet.rows.map((row) => filledRow(row, sheet, { scenario, of: shortHash(plan) }));
  const keys = new Set(rows.map(({ key }) => key));
  const strays = [...changes.keys()].filter((key) => !keys.has(key));
  const { what: noRow, remedy: writeElse } = fileWords.noSuchRow();
  const unknown = strays.map((key) => [key, `${noRow}. ${writeElse}`] as const);
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
    sheet.ofPlan,
  );
  const again = sheetOf(plan, scenario, { file: weighIn.file, text }, planFile);
  // A reason may take several lines.
  const keyAt = new Map(
    [...(again.sheet?.places ?? [])].map(([row, { line }]) => [line, `${shortHash(plan)} ${rowKey(row)}`]),
  );
  const errors = new Map([
    ...again.problems.map(({ line, what, remedy }) => [keyAt.get(line) ?? "", `${what}. ${remedy}`] as const),
    ...unknown,
  ]);
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
    ? readWeighIn(weighIn, rows, withStockOf(plan, scenario), planHash(plan))
    : { sheet: null, problems: [rows] };
}

interface Place {
  readonly scenario: Scenario;
  /** What is before the keys of this plan's rows and of no other's. */
  readonly of: string;
}

function shortHash(plan: PlanJson): string {
  return planHash(plan).slice(0, 16);
}

function filledRow(row: Row, { readings, notes }: Sheet, { scenario, of }: Place): FilledRow {
  const value = readings.get(row)?.value;
  const note = notes.get(row) ?? NOTHING_FILLED.note;
  return {
    row,
    key: `${of} ${rowKey(row)}`,
    actual: value === undefined ? "" : exactText(row, value, scenario),
    ...note,
  };
}

/** What was written into the rows of another plan: what has a row here too, by its key here, and the rest in words. */
export function carriedOver(
  changes: ReadonlyMap<string, Change>,
  rows: readonly FilledRow[],
): { changes: ReadonlyMap<string, Change>; strays: readonly { words: string; change: Change }[] } {
  const here = new Map(rows.map(({ row, key }) => [rowKey(row), key]));
  const carried = new Map<string, Change>();
  const strays: { words: string; change: Change }[] = [];
  for (const [key, change] of changes) {
    const name = key.replace(/^[0-9a-f]{16} /, "");
    const known = here.get(name);
    if (known === undefined) strays.push({ words: rowWords(name), change });
    else carried.set(known, change);
  }
  return { changes: carried, strays };
}

/** The names in a row's key; a key that was never one of ours as it is. */
function rowWords(key: string): string {
  try {
    const [what, , ...names] = JSON.parse(key) as unknown[];
    return [what, ...names.slice(0, 3)].filter((name) => typeof name === "string" && name !== "").join(", ");
  } catch {
    return key;
  }
}
