import { NO_WEIGHT, toGrams, type Weight } from "../../quantity/index.js";
import { csvCell } from "../../reading/index.js";
import type { TableBreakdown, TableItem } from "../tables.js";
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
  return `${item} (${form}), ${breakdown}, ${supplier}, ${date}, test ${number}`;
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
