import { NO_WEIGHT, toGrams, type Weight } from "../../quantity/index.js";
import { csvCell, type Problem, type Source } from "../../reading/index.js";
import { nameOf, type TableBreakdown, type TableItem } from "../tables.js";
import type { ReadYieldTests } from "./read-tests.js";
import { words } from "./words.js";
import type { YieldTest } from "./yield-test.js";

export const HEADING = "item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class";

/**
 * The tests as CSV text that `readYieldTests` reads back to the same tests. The column `weigh_in` is left out where
 * no test has one. A RangeError where two tests of one day carry the same number, or a part is not called by the
 * item's name first.
 */
export function writeYieldTests(tests: readonly YieldTest[]): string {
  const heads = tests.map(keyOf);
  const twice = heads.find((head, index) => heads.indexOf(head) < index);
  if (twice !== undefined) throw new RangeError(`two tests are both ${twice}: number them`);
  const isNamed = tests.some(({ weighIn }) => weighIn !== undefined);
  const rows = tests.flatMap((test) =>
    rowsOf(test).map((row) => (isNamed ? `${row},${csvCell(test.weighIn ?? "")}` : row)),
  );
  return [isNamed ? `${HEADING},weigh_in` : HEADING, ...rows].map((line) => `${line}\n`).join("");
}

/** The heading and the rows of a test of this breakdown still to be weighed: its parts and the loss. */
export function blankYieldTest(item: TableItem, { name, parts }: TableBreakdown): string {
  const head = [item.name, item.form, name, "", "", "1", item.measure === "loose" ? "1" : "", "", "1"];
  const row = (part: string, partClass: string) => [...head, part, "", partClass].map(csvCell).join(",");
  return [
    HEADING,
    ...parts.map(({ part, class: partClass }) => row(shortName(part, item.name), partClass)),
    row("loss", "loss"),
  ]
    .map((line) => `${line}\n`)
    .join("");
}

/** Whether another test of the same day has the test's number. */
export function isNumberTaken(others: readonly YieldTest[], test: YieldTest): boolean {
  return others.some((other) => keyOf(other) === keyOf(test));
}

/** Whether two tests say the same, whatever their numbers. */
export function isSameButForNumber(left: YieldTest, right: YieldTest): boolean {
  return rowsOf({ ...left, number: 1 }).join("\n") === rowsOf({ ...right, number: 1 }).join("\n");
}

/** The test with the number after those of its day among `others`. */
export function numberedAfter(others: readonly YieldTest[], test: YieldTest): YieldTest {
  const sameDay = others.filter((other) => keyOf({ ...other, number: 0 }) === keyOf({ ...test, number: 0 }));
  return { ...test, number: Math.max(0, ...sameDay.map(({ number }) => number)) + 1 };
}

function keyOf({ item, form, breakdown, supplier, date, number }: YieldTest): string {
  return `${nameOf(item, form, breakdown)}, ${supplier}, ${date}, test ${number}`;
}

function rowsOf(test: YieldTest): string[] {
  const { item, form, breakdown, supplier, date, number, units, apWeight, scaleStep, parts, loss } = test;
  const head = [
    item,
    form,
    breakdown,
    supplier,
    date,
    number,
    units,
    gramsText(apWeight),
    gramsText(scaleStep),
  ];
  const row = (name: string, weight: Weight, partClass: string) =>
    [...head, name, gramsText(weight), partClass].map((value) => csvCell(String(value))).join(",");
  return [
    ...parts.map(({ part, weight, class: partClass }) => row(shortName(part, item), weight, partClass)),
    ...(loss === NO_WEIGHT ? [] : [row("loss", loss, "loss")]),
  ];
}

function shortName(part: string, item: string): string {
  if (!part.startsWith(`${item} `)) throw new RangeError(`${part} is not called by its item ${item} first`);
  return part.slice(item.length + 1);
}

function gramsText(weight: Weight): string {
  return toGrams(weight).toString();
}

/** Tests ready to be kept, or why they are not. */
export interface TestsAdded {
  /** The tests to be added, numbered after those of the same day; none where there are problems. */
  readonly added: readonly YieldTest[];
  readonly problems: readonly Problem[];
}

/**
 * Adds tests just read to those a kitchen has. One whose number an earlier one of its day has is numbered on; where
 * that day has one with the same weights too, it is taken for the same test and is a problem, so that nothing
 * counts twice.
 */
export function testsAdded(
  earlier: readonly YieldTest[],
  { tests, places, problems }: ReadYieldTests,
): TestsAdded {
  const repeated = tests.flatMap((test): Problem[] => {
    const place = places.get(test);
    const isRepeated =
      isNumberTaken(earlier, test) && earlier.some((other) => isSameButForNumber(other, test));
    return isRepeated && place !== undefined ? [{ ...place, ...words.recordedAlready(test) }] : [];
  });
  if (problems.length + repeated.length > 0) return { added: [], problems: [...problems, ...repeated] };
  const added: YieldTest[] = [];
  for (const test of tests) {
    const others = [...earlier, ...added];
    added.push(isNumberTaken(others, test) ? numberedAfter(others, test) : test);
  }
  return { added, problems: [] };
}

/** A yield test as someone typed it, nothing read yet; weights in the order of the breakdown's parts. */
export interface TypedTest {
  readonly supplier: string;
  readonly date: string;
  readonly units: string;
  readonly apWeight: string;
  readonly scaleStep: string;
  readonly weights: readonly string[];
  /** "" where none was found. */
  readonly loss: string;
}

/** A place of the form: a head field by name, a weight by the number of its part; null for what no field can mend. */
export type TypedField = Exclude<keyof TypedTest, "weights"> | number | null;

export interface TypedSource {
  /** For `readYieldTests`. */
  readonly source: Source;
  /** The field that a problem of that text is about. */
  fieldOf(problem: Problem): TypedField;
  /** Whether it is about a field that holds nothing. */
  isBlank(problem: Problem): boolean;
}

const HEAD_FIELDS: Readonly<Record<string, TypedField>> = {
  supplier: "supplier",
  date: "date",
  units: "units",
  ap_g: "apWeight",
  scale_step_g: "scaleStep",
};

/** What was typed as CSV text, so that a form is judged by what judges a file. */
export function typedYieldTest(
  item: TableItem,
  { name, parts }: TableBreakdown,
  typed: TypedTest,
): TypedSource {
  const { supplier, date, units, apWeight, scaleStep, weights, loss } = typed;
  const head = [item.name, item.form, name, supplier, date, "1", units, apWeight, scaleStep];
  const rows = [
    ...parts.map(({ part, class: partClass }, index) => [
      ...head,
      part.slice(item.name.length + 1),
      weights[index] ?? "",
      partClass,
    ]),
    ...(loss.trim() === "" ? [] : [[...head, "loss", loss, "loss"]]),
  ].map((cells) => cells.map((text) => csvCell(text.replace(/\s+/g, " ").trim())));
  const file = "yield test";
  const cellOf = (problem: Problem) => {
    const row = problem.line - 2;
    const cells = rows[row];
    if (problem.file !== file || cells === undefined) return null;
    const index = columnAt(cells, problem.column);
    return { row, column: HEADING.split(",")[index] ?? "", text: cells[index] ?? "" };
  };
  return {
    source: { file, text: `${[HEADING, ...rows.map((cells) => cells.join(","))].join("\n")}\n` },
    fieldOf: (problem) => {
      const { row = 0, column = "" } = cellOf(problem) ?? {};
      if (column === "weight_g") return row < parts.length ? row : "loss";
      return HEAD_FIELDS[column] ?? null;
    },
    isBlank: (problem) => cellOf(problem)?.text === "",
  };
}

/** Which cell of a row begins at or before a column of the text. */
function columnAt(cells: readonly string[], column: number): number {
  let start = 1;
  const index = cells.findIndex((text) => {
    start += [...text].length + 1;
    return column < start;
  });
  return Math.max(0, index);
}
