import { testsByCutting } from "../own-tests/summary.js";
import type { YieldTest } from "../own-tests/yield-test.js";
import {
  type CookingYield,
  nameOf,
  type TableBreakdown,
  type TableItem,
  type TablePart,
  type TableStep,
  type YieldTables,
} from "../tables.js";
import { counted, gramTexts, percentText, percentTexts, Sources, wholeGrams, withUnits } from "./figures.js";
import { testedUnitWeight, testedYields } from "./own-tests.js";

/** The published tables, a kitchen's own tests of what they hold, and the two weighed together. */
export interface YieldsAndTests {
  readonly published: YieldTables;
  readonly tests: readonly YieldTest[];
  readonly tables: YieldTables;
}

/**
 * What tables and own tests say of an item, as text; what is not known is "". The forms given are entries of the
 * published tables under one name.
 */
export function itemYields(forms: readonly TableItem[], yields: YieldsAndTests) {
  const sources = new Sources();
  const name = forms[0]?.name ?? "";
  const written = forms.map((item) => formYields(item, yields, sources));
  const parts = new Set(
    forms.flatMap(({ breakdowns }) => breakdowns.flatMap(({ parts: each }) => each.map(({ part }) => part))),
  );
  return {
    name,
    alsoCalled: [...new Set(forms.flatMap(({ alsoCalled }) => alsoCalled))].join(", "),
    forms: written,
    steps: yields.published.steps
      .filter(({ from }) => from.some((part) => parts.has(part)))
      .map((step) => stepYields(step, sources)),
    cooking: yields.published.cooking
      .filter(({ food }) => isAbout(food, name))
      .map((each) => cookedRow(each, sources)),
    sources: sources.listed(),
  };
}

export type ItemYields = ReturnType<typeof itemYields>;
export type FormYields = ReturnType<typeof formYields>;
export type BreakdownYields = ReturnType<typeof breakdownYields>;

function formYields(published: TableItem, { tables, tests }: YieldsAndTests, sources: Sources) {
  const { name, form, measure, unitName, unitSpread, keepsDays, keepsFrom } = published;
  const own = tests.filter((test) => test.item === name && test.form === form);
  const item = tables.items.find((each) => each.name === name && each.form === form) ?? published;
  const isLoose = measure === "loose";
  const about = `One ${unitName} weighs about ${wholeGrams(published.unitWeight)} g`;
  const spread = unitSpread === null ? "" : `, give or take ${wholeGrams(unitSpread)} g`;
  return {
    form,
    unit: isLoose ? "Loose, cut by weight" : withUnits(`${about}${spread} [${sources.numberOf(published)}]`),
    unitTested: testedUnitWeight(published, own),
    keeps:
      keepsDays === null
        ? "Keeps longer than any plan"
        : `Keeps ${counted(keepsDays, "day")} as bought${keepsFrom === null ? "" : ` [${sources.numberOf(keepsFrom)}]`}`,
    allergens: published.allergens.join(", "),
    treatment: withUnits(published.treatment ?? ""),
    /** Head of the column of grams. */
    gramsOf: isLoose ? "g of 1 kg" : `g of one ${unitName}`,
    breakdowns: published.breakdowns.map((breakdown) => {
      const inUse = item.breakdowns.find((each) => each.name === breakdown.name) ?? breakdown;
      return breakdownYields(published, breakdown, { ...item, breakdown: inUse }, own, sources);
    }),
  };
}

function breakdownYields(
  item: TableItem,
  published: TableBreakdown,
  inUse: TableItem & { readonly breakdown: TableBreakdown },
  tests: readonly YieldTest[],
  sources: Sources,
) {
  const { name, parts, loss, minutes, how } = published;
  const percents = percentTexts(inUse.breakdown);
  const grams = gramTexts(inUse.breakdown, inUse.unitWeight);
  const rows = parts.map((part, index) => ({
    part: part.part.slice(item.name.length + 1),
    kind: KINDS[part.class],
    percent: percents[index] ?? "",
    grams: grams[index] ?? "",
    keeps: daysText(part.keepsDays),
    pieces: part.pieces === null ? "" : String(part.pieces),
    spread: spreadText(part),
    source: sources.numberOf(part),
  }));
  const lossRow = {
    part: "cutting loss",
    kind: "",
    percent: percents.at(-1) ?? "",
    grams: grams.at(-1) ?? "",
    keeps: "",
    pieces: "",
    spread: "",
    source: "",
  };
  return {
    name,
    effort: minutes === null ? "" : `${minutes.toFixed()} min for one ${item.unitName}`,
    how: withUnits(how ?? ""),
    rows: loss.isZero() && inUse.breakdown.loss.isZero() ? rows : [...rows, lossRow],
    total: { percent: "100.0", grams: wholeGrams(inUse.unitWeight) },
    tested: testedYields(
      item,
      published,
      testsByCutting(tests).get(nameOf(item.name, item.form, name)) ?? [],
    ),
  };
}

function stepYields(step: TableStep, sources: Sources) {
  const { name, from, yields, loss, water, minutesPerKilogram, how } = step;
  const own = (part: string, fraction: typeof loss) =>
    fraction.isZero() ? [] : [{ part, kind: "", percent: percentText(fraction), keeps: "" }];
  return {
    name,
    from: from.join(", "),
    effort: minutesPerKilogram === null ? "" : `${minutesPerKilogram.toFixed()} min for one kg`,
    how: withUnits(how ?? ""),
    rows: [
      ...yields.map((each) => ({
        part: each.part,
        kind: KINDS[each.class],
        percent: percentText(each.fraction),
        keeps: daysText(each.keepsDays),
      })),
      ...own("loss", loss),
      ...own("water taken up", water),
    ],
    source: sources.numberOf(step),
  };
}

function cookedRow(cooking: CookingYield, sources: Sources) {
  const { food, method, fraction } = cooking;
  return {
    food,
    method,
    percent: percentText(fraction),
    spread: spreadText(cooking),
    source: sources.numberOf(cooking),
  };
}

function spreadText({ spread, tests }: Pick<TablePart, "spread" | "tests">): string {
  const about = spread === null ? "" : `± ${percentText(spread)}`;
  return [about, tests === null ? "" : `of ${counted(tests, "test")}`]
    .filter((text) => text !== "")
    .join(" ");
}

const KINDS = { food: "food", inedible: "inedible", never: "DO NOT USE" } as const;

function daysText(days: number | null): string {
  return days === null ? "long" : String(days);
}

/** "chicken breast, with skin" is about chicken. */
function isAbout(food: string, item: string): boolean {
  return new RegExp(`\\b${item.replace(/[^\w ]/g, "")}\\b`, "i").test(food);
}
