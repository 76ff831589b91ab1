import { isIsoDate } from "../../kitchen/index.js";
import { Decimal, grams, NO_WEIGHT, total, type Weight } from "../../quantity/index.js";
import {
  type CsvColumns,
  type CsvRow,
  type Position,
  type Problem,
  readCsv,
  type Source,
} from "../../reading/index.js";
import { RowCells, SeenOnce } from "../../table-files/index.js";
import { grouped } from "../table-reading/groups.js";
import type { YieldTables } from "../tables.js";
import { disagreementsWithTables } from "./agreement.js";
import { words } from "./words.js";
import { isClosed, type WeighedPart, type YieldTest } from "./yield-test.js";

const TEST_COLUMNS: CsvColumns = {
  required: ["item", "form", "breakdown", "supplier", "date", "units", "ap_g", "part", "weight_g", "class"],
  optional: ["test", "scale_step_g", "weigh_in"],
};

const CLASSES = ["food", "inedible", "never", "loss"] as const;
/** What a test is known by, and what all its rows must say alike. */
const KEY = ["item", "form", "breakdown", "supplier", "date", "test"] as const;
const ALIKE = ["units", "ap_g", "scale_step_g", "weigh_in"] as const;
const MOST_WEIGHT = grams("1000000");
const MOST_UNITS = 10_000;
const MOST_TESTS_A_DAY = 1000;
const USUAL_SCALE_STEP = grams("1");

/** The rows of one test as read; `part` is null for the cutting loss. */
export interface TestRow {
  readonly row: CsvRow;
  readonly head: Omit<YieldTest, "parts" | "loss">;
  readonly part: WeighedPart | null;
  readonly weight: Weight;
}

export interface ReadYieldTests {
  readonly tests: readonly YieldTest[];
  /** Where each test begins. */
  readonly places: ReadonlyMap<YieldTest, Position>;
  readonly problems: readonly Problem[];
}

/**
 * Reads the kitchen's own yield tests from CSV (RFC 4180, a heading row, columns in any order), one row for each
 * part weighed and one of class `loss` where loss was found; the rows of a test agree in all columns before
 * `part`.
 *
 *     item, form, breakdown   as in the yield tables
 *     supplier, date          who delivered it; the day it was cut, year-month-day
 *     test                    which of that day's tests of the same; 1 where empty
 *     units                   heads, birds, bunches weighed together; 1 for a loose item
 *     ap_g                    their weight as bought, in grams
 *     scale_step_g            the smallest weight the scale shows, in grams; 1 where empty
 *     part                    without the item's name
 *     weight_g                in grams, 0 where there was none
 *     class                   food, inedible, never, loss
 *     weigh_in                the weigh-in it was made from; empty where weighed for itself
 *
 * A test must close: AP weight and parts with loss may differ by half the scale's step for each weighing. Every
 * problem is reported by file, line and column, and a test with one is left out. With `tables`, names, classes
 * and the list of parts must be those of the tables too.
 */
export function readYieldTests(source: Source, tables: YieldTables | null = null): ReadYieldTests {
  const table = readCsv(source, TEST_COLUMNS);
  const problems: Problem[] = [...table.problems];
  const seen = new SeenOnce();
  const unread = new Set<string>();
  const rows = table.rows.flatMap((row): TestRow[] => {
    const read = testRow(row, seen, problems);
    if (read === null) unread.add(keyOf(row));
    return read === null ? [] : [read];
  });
  const groups = grouped(rows, ({ row }) => keyOf(row)).filter(({ key }) => !unread.has(key));
  const places = new Map<YieldTest, Position>();
  for (const { rows: group } of groups) {
    const before = problems.length;
    const test = joined(group, problems);
    const place = group[0]?.row.position;
    if (test !== null && tables !== null) problems.push(...disagreementsWithTables(test, group, tables));
    const whole = group[0]?.row.cell("ap_g").position;
    if (test !== null && whole !== undefined && !isClosed(test))
      problems.push({ ...whole, ...words.doesNotClose(test) });
    if (test !== null && place !== undefined && problems.length === before) places.set(test, place);
  }
  return {
    tests: [...places.keys()],
    places,
    problems: problems.sort((a, b) => a.line - b.line || a.column - b.column),
  };
}

/** The rows' own words for the test; an empty number is the first. */
function keyOf(row: CsvRow): string {
  return KEY.map((column) => row.cell(column).text || "1").join("\n");
}

function testRow(row: CsvRow, seen: SeenOnce, problems: Problem[]): TestRow | null {
  const cells = new RowCells(row, problems);
  const item = cells.text("item");
  const form = cells.text("form");
  const breakdown = cells.text("breakdown");
  const supplier = cells.text("supplier");
  const date = isoDate(cells);
  const number = cells.optionalWhole("test", MOST_TESTS_A_DAY);
  const isNumbered = number !== null || row.cell("test").text === "";
  const units = cells.text("units") === null ? null : cells.optionalWhole("units", MOST_UNITS);
  const apWeight = weightCell(cells, "ap_g", false);
  const scaleStep =
    row.cell("scale_step_g").text === "" ? USUAL_SCALE_STEP : weightCell(cells, "scale_step_g", false);
  const name = cells.text("part");
  const weight = weightCell(cells, "weight_g", true);
  const partClass = cells.oneOf("class", CLASSES);
  const isNew = seen.add(cells, "part", ...KEY.map((column) => row.cell(column).text || "1"), name);
  if (item === null || form === null || breakdown === null || supplier === null || date === null) return null;
  if (units === null || apWeight === null || scaleStep === null || !isNumbered) return null;
  if (name === null || weight === null || partClass === null || !isNew) return null;
  const weighIn = row.cell("weigh_in").text;
  const head = {
    ...{ item, form, breakdown, supplier, date, number: number ?? 1, units, apWeight, scaleStep },
    ...(weighIn === "" ? {} : { weighIn }),
  };
  const part = partClass === "loss" ? null : { part: `${item} ${name}`, weight, class: partClass };
  return { row, head, part, weight };
}

function isoDate(cells: RowCells): string | null {
  const date = cells.text("date");
  return date === null || isIsoDate(date) ? date : cells.problem("date", words.noDate(date));
}

/** Grams to the milligram: what is written is what is kept, so more decimals than three are refused. */
function weightCell(cells: RowCells, column: string, orNothing: boolean): Weight | null {
  const { text } = cells.row.cell(column);
  const weight = /^\d+(\.\d{1,3})?$/.test(text) ? grams(new Decimal(text)) : null;
  if (weight === null || weight > MOST_WEIGHT || (weight === NO_WEIGHT && !orNothing))
    return cells.problem(column, words.noWeight(column, text, MOST_WEIGHT, orNothing));
  return weight;
}

/** One test of its rows; null, with the problems, where they disagree or weigh no part. */
function joined(rows: readonly TestRow[], problems: Problem[]): YieldTest | null {
  const [first] = rows;
  if (first === undefined) return null;
  const differing = rows.flatMap(({ row }) =>
    ALIKE.filter((column) => row.cell(column).text !== first.row.cell(column).text).map((column) => ({
      ...row.cell(column).position,
      ...words.differsInTest(
        column,
        row.cell(column).text || "empty",
        first.row.cell(column).text || "empty",
        first.row.position.line,
      ),
    })),
  );
  problems.push(...differing);
  if (differing.length > 0) return null;
  const parts = rows.flatMap(({ part }) => (part === null ? [] : [part]));
  const loss = total(rows.filter(({ part }) => part === null).map(({ weight }) => weight));
  if (parts.length > 0) return { ...first.head, parts, loss };
  problems.push({ ...first.row.cell("ap_g").position, ...words.noParts(first.head.breakdown) });
  return null;
}
