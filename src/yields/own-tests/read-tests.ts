import { isIsoDate } from "../../kitchen/index.js";
import { Decimal, grams, NO_WEIGHT, toGrams, total, type Weight } from "../../quantity/index.js";
import {
  type CsvColumns,
  type CsvRow,
  didYouMean,
  type Position,
  type Problem,
  readCsv,
  type Source,
  type Wording,
} from "../../reading/index.js";
import { RowCells, SeenOnce, words as tableWords } from "../../table-files/index.js";
import { grouped } from "../table-reading/groups.js";
import { nameOf, type TableBreakdown, type TableItem, type YieldTables } from "../tables.js";
import { words } from "./words.js";
import { cuttingOf, hiddenBy, isClosed, type WeighedPart, type YieldTest } from "./yield-test.js";

const TEST_COLUMNS: CsvColumns = {
  // Units are weighed together, 1 for a loose item; `ap_g` is their weight as bought, and all weights are in grams.
  required: ["item", "form", "breakdown", "supplier", "date", "units", "ap_g", "part", "weight_g", "class"],
  // Which of that day's tests of the same, the scale's smallest weight (both 1 where empty), and the weigh-in behind it.
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
 * Reads the kitchen's own yield tests from CSV (RFC 4180), a row for each part weighed and one of class `loss` for
 * loss found. Every problem is told by its place, and a test with one is left out. With `tables`, names, classes
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

/** A unit this many times lighter or heavier than the tables have it is a slip of the pen. Our choice. */
const FAR_OFF = 10;
/** What the scale may hide of the weight bought. Our choice: yields from a coarser one say too little. */
const MOST_HIDDEN = new Decimal("0.1");

/**
 * What a test says otherwise than the yield tables: names that are not there, classes, parts not weighed, units of
 * quite another weight; and a scale too coarse for what it weighed.
 */
export function disagreementsWithTables(
  test: YieldTest,
  rows: readonly TestRow[],
  tables: YieldTables,
): Problem[] {
  const place = (column: string) => rows[0]?.row.cell(column).position;
  const unknown = (column: string, kind: string, name: string, known: readonly string[]): Problem[] => {
    const position = place(column);
    const wording = tableWords.unknownName(kind, name, didYouMean(name, known), "the yield tables");
    return position === undefined ? [] : [{ ...position, ...wording }];
  };
  const forms = tables.items.filter(({ name }) => name === test.item);
  if (forms.length === 0)
    return unknown("item", "item", test.item, [...new Set(tables.items.map(({ name }) => name))]);
  const item = forms.find(({ form }) => form === test.form);
  if (item === undefined)
    return unknown(
      "form",
      `form of ${test.item}`,
      test.form,
      forms.map(({ form }) => form),
    );
  const breakdown = item.breakdowns.find(({ name }) => name === test.breakdown);
  if (breakdown === undefined) {
    const kind = `breakdown of ${nameOf(test.item, test.form)}`;
    return unknown(
      "breakdown",
      kind,
      test.breakdown,
      item.breakdowns.map(({ name }) => name),
    );
  }
  const at = (column: string, wording: Wording | null): Problem[] => {
    const position = place(column);
    return position === undefined || wording === null ? [] : [{ ...position, ...wording }];
  };
  return [
    ...at("units", unitsDoubt(test, item)),
    ...at("scale_step_g", coarseness(test)),
    ...partProblems(test, rows, breakdown),
    ...notWeighed(test, rows, breakdown),
  ];
}

function unitsDoubt({ apWeight, units }: YieldTest, item: TableItem): Wording | null {
  if (item.measure === "loose") return null;
  const unit = toGrams(apWeight).div(units);
  const published = toGrams(item.unitWeight);
  return unit.times(FAR_OFF).lt(published) || unit.gt(published.times(FAR_OFF))
    ? words.unlikelyUnits(units, unit, item.unitName, published)
    : null;
}

function coarseness(test: YieldTest): Wording | null {
  return toGrams(hiddenBy(test)).gt(toGrams(test.apWeight).times(MOST_HIDDEN)) ? words.tooCoarse(test) : null;
}

function partProblems(test: YieldTest, rows: readonly TestRow[], { parts }: TableBreakdown): Problem[] {
  const short = parts.map(({ part }) => part.slice(test.item.length + 1));
  return rows.flatMap(({ row, part }): Problem[] => {
    if (part === null) return [];
    const known = parts.find((other) => other.part === part.part);
    if (known === undefined) {
      const { text, position } = row.cell("part");
      const wording = tableWords.unknownName(
        "part",
        text,
        didYouMean(text, short),
        `${cuttingOf(test)} of the yield tables`,
      );
      return [{ ...position, ...wording }];
    }
    if (known.class === part.class) return [];
    return [{ ...row.cell("class").position, ...words.otherClass(part.part, part.class, known.class) }];
  });
}

function notWeighed(test: YieldTest, rows: readonly TestRow[], { parts }: TableBreakdown): Problem[] {
  const position = rows.at(-1)?.row.cell("part").position;
  const weighed = new Set(test.parts.map(({ part }) => part));
  return parts
    .filter(({ part }) => !weighed.has(part))
    .flatMap(({ part }) =>
      position === undefined ? [] : [{ ...position, ...words.partNotWeighed(part, cuttingOf(test)) }],
    );
}
