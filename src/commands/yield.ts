import { type Decimal, toGrams, type Weight } from "../quantity/index.js";
import {
  loadYieldTables,
  type Provenance,
  type TableBreakdown,
  type TableItem,
  type TableStep,
  type YieldTables,
} from "../yields/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { findItems, unknownItem } from "./find-item.js";
import type { Terminal } from "./terminal.js";

/** `yield ITEM`: what the tables say of it, form by form and breakdown by breakdown. */
export function yieldCommand(wanted: string, terminal: Terminal): ExitCode {
  const { tables } = loadYieldTables();
  const items = findItems(tables.items, wanted);
  if (items.length === 0) {
    terminal.complain(unknownItem(wanted, tables.items));
    return EXIT.wrongInput;
  }
  const lines = [
    ...items.flatMap((item) => itemLines(item, terminal)),
    ...sharedLines(items, tables, terminal),
  ];
  for (const line of lines) terminal.print(line);
  return EXIT.plan;
}

function itemLines(item: TableItem, { heading }: Terminal): string[] {
  const unit =
    item.measure === "loose"
      ? "loose, cut by weight; grams are of 1 kg"
      : `one ${item.unitName} weighs about ${gramsText(item.unitWeight)}${spreadText(item.unitSpread)} (${sourceText(item)})`;
  return [
    heading(`${item.name}, ${item.form}`),
    ...(item.alsoCalled.length > 0 ? [`  also called ${item.alsoCalled.join(", ")}`] : []),
    `  ${unit}`,
    `  ${keepsText(item)}`,
    ...(item.allergens.length > 0 ? [`  allergens: ${item.allergens.join(", ")}`] : []),
    ...(item.treatment === null ? [] : [`  before cutting: ${item.treatment}`]),
    ...item.breakdowns.flatMap((breakdown) => ["", ...breakdownLines(breakdown, item, heading)]),
    "",
  ];
}

/** What is done to the parts of all forms alike: further breakdowns, and what cooking leaves of the weight. */
function sharedLines(items: readonly TableItem[], tables: YieldTables, { heading }: Terminal): string[] {
  const parts = new Set(
    items.flatMap(({ breakdowns }) => breakdowns.flatMap((each) => each.parts.map(({ part }) => part))),
  );
  const steps = tables.steps.filter(({ from }) => from.some((part) => parts.has(part)));
  const cooking = tables.cooking.filter(({ food }) => items.some(({ name }) => isAbout(food, name)));
  return [
    ...steps.flatMap((step) => [...stepLines(step, heading), ""]),
    ...(cooking.length === 0 ? [] : [heading("cooked weight of raw")]),
    ...columns(
      cooking.map((each) => [
        `${each.food}, ${each.method}`,
        percentText(each.fraction),
        testsText(each),
        sourceText(each),
      ]),
      [1],
    ),
  ];
}

function breakdownLines(breakdown: TableBreakdown, item: TableItem, heading: Terminal["heading"]): string[] {
  const { name, parts, loss, minutes, how } = breakdown;
  const effort = minutes === null ? "" : `, ${minutes.toFixed()} min for one ${item.unitName}`;
  const weightOf = (fraction: Decimal) => toGrams(item.unitWeight).times(fraction);
  const rows = parts.map((each) => [
    each.part.startsWith(`${item.name} `) ? each.part.slice(item.name.length + 1) : each.part,
    each.class,
    percentText(each.fraction),
    `${weightOf(each.fraction).toFixed(0)} g`,
    each.keepsDays === null ? "" : `keeps ${each.keepsDays} d`,
    each.pieces === null ? "" : `${each.pieces} pieces`,
    testsText(each),
    sourceText(each),
  ]);
  const lossRow = ["cutting loss", "", percentText(loss), `${weightOf(loss).toFixed(0)} g`, "", "", "", ""];
  return [
    `${heading(`  ${name}`)}${effort}${how === null ? "" : `: ${how}`}`,
    ...columns(loss.isZero() ? rows : [...rows, lossRow], [2, 3]),
  ];
}

function stepLines(step: TableStep, heading: Terminal["heading"]): string[] {
  const { name, from, yields, loss, water, minutesPerKilogram, how } = step;
  const effort = minutesPerKilogram === null ? "" : `, ${minutesPerKilogram.toFixed()} min for one kg`;
  return [
    `${heading(name)}, from ${from.join(", ")}${effort}${how === null ? "" : `: ${how}`}`,
    ...columns(
      [
        ...yields.map((each) => [each.part, each.class, percentText(each.fraction)]),
        ...(loss.isZero() ? [] : [["loss", "", percentText(loss)]]),
        ...(water.isZero() ? [] : [["water taken up", "", percentText(water)]]),
      ],
      [2],
    ),
    `    ${sourceText(step)}`,
  ];
}

/** Lines of cells, each column as wide as its widest cell; columns empty in every row are left out. */
function columns(rows: readonly (readonly string[])[], alignedRight: readonly number[]): string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count }, (_, index) =>
    Math.max(...rows.map((row) => (row[index] ?? "").length)),
  );
  return rows.map((row) => {
    const cells = widths.flatMap((width, index) => {
      const cell = row[index] ?? "";
      if (width === 0) return [];
      return [alignedRight.includes(index) ? cell.padStart(width) : cell.padEnd(width)];
    });
    return `    ${cells.join("  ")}`.trimEnd();
  });
}

function keepsText({ keepsDays, keepsFrom }: TableItem): string {
  if (keepsDays === null) return "keeps longer than any plan";
  const from = keepsFrom === null ? "" : ` (${sourceText(keepsFrom)})`;
  return `keeps ${keepsDays} ${keepsDays === 1 ? "day" : "days"} as bought${from}`;
}

function testsText({ spread, tests }: { spread: Decimal | null; tests: number | null }): string {
  const about = spread === null ? "" : `± ${spread.times(100).toDecimalPlaces(1).toFixed()}`;
  return `${about}${tests === null ? "" : ` of ${tests} ${tests === 1 ? "test" : "tests"}`}`.trim();
}

function sourceText({ source, basis }: Provenance): string {
  return source.includes(basis) ? source : `${source}; ${basis}`;
}

function percentText(fraction: Decimal): string {
  return `${fraction.times(100).toDecimalPlaces(1).toFixed()} %`;
}

function gramsText(weight: Weight): string {
  return `${toGrams(weight).toDecimalPlaces(1).toFixed()} g`;
}

function spreadText(spread: Weight | null): string {
  return spread === null ? "" : `, give or take ${gramsText(spread)}`;
}

/** "chicken breast, with skin" is about chicken. */
function isAbout(food: string, item: string): boolean {
  return new RegExp(`\\b${item.replace(/[^\w ]/g, "")}\\b`, "i").test(food);
}
