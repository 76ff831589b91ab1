import {
  type KitchenYields,
  kitchenYields,
  loadKitchenYields,
  recordTests,
} from "../../kitchen-files/index.js";
import { itemYieldsPage, type YieldTestErrors, yieldsIndexPage, yieldTestPage } from "../../pages/index.js";
import { type Problem, problemLines, problemText } from "../../reading/index.js";
import {
  itemYields,
  type TableBreakdown,
  type TableItem,
  type TypedSource,
  type TypedTest,
  typedYieldTest,
} from "../../yields/index.js";
import { FROM_FIRST_PAGE } from "../frame.js";
import { notHere, type PageAnswer, page } from "../page-answer.js";
import type { Task } from "../work/serve-tasks.js";

/** A breakdown of a form of an item, as an address names it. */
interface BreakdownNamed {
  readonly item: string;
  readonly form: string;
  readonly breakdown: string;
}

export type YieldsTask = Task<{ readonly folder: string }, never, PageAnswer>;
export type ItemYieldsTask = Task<
  { readonly folder: string; readonly item: string; readonly saved: boolean },
  never,
  PageAnswer
>;
export type YieldTestTask = Task<BreakdownNamed, never, PageAnswer>;
/** `fields`: what was typed, by the names of the form's fields. */
export type RecordTask = Task<
  BreakdownNamed & { readonly folder: string; readonly fields: ReadonlyMap<string, readonly string[]> },
  never,
  PageAnswer
>;

const INDEX = "/yields/";
const TO_INDEX = { href: INDEX, text: "Yields" };

/** Every item of the tables. */
export async function yieldsIndex({ folder }: YieldsTask["asked"]): Promise<PageAnswer> {
  const yields = await loadKitchenYields(folder);
  const problems = problemLines(yields.problems);
  return page(yieldsIndexPage(yields, { ...FROM_FIRST_PAGE, problems, addressOf }).html);
}

/** What tables and own tests say of an item. */
export async function yieldsOfItem({ folder, item, saved }: ItemYieldsTask["asked"]): Promise<PageAnswer> {
  const yields = await loadKitchenYields(folder);
  const forms = yields.published.items.filter(({ name }) => name === item);
  return forms.length === 0 ? notHere() : page(itemPage(item, forms, yields, saved));
}

/** The form of a yield test. */
export async function yieldTest(named: BreakdownNamed): Promise<PageAnswer> {
  const asked = breakdownOf(named);
  return asked === null ? notHere() : page(testPage(asked));
}

/** Adds a yield test that was typed to the kitchen's own. */
export async function recordTest({ folder, fields, ...named }: RecordTask["asked"]): Promise<PageAnswer> {
  const asked = breakdownOf(named);
  if (asked === null) return notHere();
  const typed = testTyped(fields, asked);
  const written = typedYieldTest(asked.item, asked.breakdown, typed);
  const { problems } = await recordTests(folder, written.source);
  return problems.length === 0
    ? { seeOther: `${addressOf(named.item)}?saved=yes` }
    : page(testPage(asked, typed, errorsOf(problems, written)), 422);
}

interface Asked {
  readonly item: TableItem;
  readonly breakdown: TableBreakdown;
}

function addressOf(item: string): string {
  return `${INDEX}${encodeURIComponent(item)}/`;
}

function testAddress(item: string, form: string, breakdown: string): string {
  return `${addressOf(item)}test?${new URLSearchParams({ form, breakdown }).toString()}`;
}

function itemPage(name: string, forms: readonly TableItem[], yields: KitchenYields, saved: boolean): string {
  return itemYieldsPage(itemYields(forms, yields), {
    ...FROM_FIRST_PAGE,
    nav: [TO_INDEX],
    problems: problemLines(yields.problems),
    saved,
    testOf: (form, breakdown) => testAddress(name, form, breakdown),
  }).html;
}

function testPage({ item, breakdown }: Asked, typed?: TypedTest, errors?: YieldTestErrors): string {
  return yieldTestPage(item, breakdown, {
    ...FROM_FIRST_PAGE,
    nav: [TO_INDEX, { href: addressOf(item.name), text: `Yields of ${item.name}` }],
    script: "missing.js",
    action: testAddress(item.name, item.form, breakdown.name),
    ...(typed === undefined ? {} : { typed }),
    ...(errors === undefined ? {} : { errors }),
  }).html;
}

/** Null where the tables hold no such thing. */
function breakdownOf(named: BreakdownNamed): Asked | null {
  const { items } = kitchenYields(null).published;
  const item = items.find(({ name, form }) => name === named.item && form === named.form);
  const breakdown = item?.breakdowns.find(({ name }) => name === named.breakdown);
  return item === undefined || breakdown === undefined ? null : { item, breakdown };
}

/** What is not there is empty. */
function testTyped(fields: ReadonlyMap<string, readonly string[]>, { item, breakdown }: Asked): TypedTest {
  const text = (name: string): string => fields.get(name)?.[0] ?? "";
  return {
    supplier: text("supplier"),
    date: text("date"),
    units: item.measure === "loose" ? "1" : text("units"),
    apWeight: text("apWeight"),
    scaleStep: text("scaleStep"),
    weights: breakdown.parts.map((_, index) => text(`weight-${index}`)),
    loss: text("loss"),
  };
}

/** Each problem at its field, without the marks of a file; a field says the first of its own. */
function errorsOf(problems: readonly Problem[], { source, fieldOf, isBlank }: TypedSource): YieldTestErrors {
  const fields: Record<string, string> = {};
  const weights = new Map<number, string>();
  const others: string[] = [];
  for (const problem of problems) {
    const field = fieldOf(problem);
    const what = isBlank(problem) ? "Nothing is written here" : problem.what;
    const text = `${what}. ${problem.remedy}`.replace(/`([^`]*)`/g, "“$1”");
    if (field === null) others.push(problem.file === source.file ? text : problemText(problem));
    else if (typeof field === "number") weights.set(field, weights.get(field) ?? text);
    else fields[field] ??= text;
  }
  return { fields, weights, others };
}
