import type { FormChoiceJson } from "../contract/index.js";
import { composeFormChoice, planFormChoice } from "../insight/index.js";
import { readScenario, type Scenario } from "../kitchen/index.js";
import { kitchenYields, type OwnTestsFile, readOwnTests } from "../kitchen-files/index.js";
import { formChoiceDocument, pageOf } from "../pages/index.js";
import { planningWith } from "../planning/index.js";
import { type Money, NO_MONEY } from "../quantity/index.js";
import { didYouMean } from "../reading/index.js";
import { resolveScenario } from "../scenario/index.js";
import { boughtInSeveralForms, foodOf, foodServedOf, type TableItem } from "../yields/index.js";
import { answering, writePages } from "./answering.js";
import { findItems, unknownItem } from "./find-item.js";
import { printDocument } from "./print-document.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";
import { folderObstacle } from "./write-folder.js";

export interface FormsCommandOptions {
  readonly item: string;
  readonly price?: readonly string[];
  readonly want?: readonly string[];
  readonly credit?: readonly string[];
  readonly currency: string;
  /** The folder with the kitchen's own tests, where prices alone are compared. */
  readonly kitchen: string;
  /** For an hour of cutting and further steps. */
  readonly wage?: Money;
  /** For each plan. */
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

/** `forms [FILE] --item I`: which form of an item to buy, by usable weight and, of a scenario, by its plans. */
export function formsCommand(
  file: string | undefined,
  options: FormsCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return file === undefined ? byPrices(options, terminal) : byPlans(file, options, terminal);
}

function byPlans(file: string, options: FormsCommandOptions, terminal: Terminal): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (read, engines) => {
    const { wage = NO_MONEY, seconds } = options;
    const scenario: Scenario = { ...read, wage };
    const of = read.items.find(({ name }) => name === options.item)?.of ?? options.item;
    const problem = problemIn(of, options, scenario);
    if (problem !== null) {
      terminal.complain(`${file}: ${problem}`);
      return EXIT.wrongInput;
    }
    const named = foodOf(of, scenario).filter((part) => isNamed(part, of, options.want ?? []));
    const wanted = named.length > 0 ? named : foodServedOf(of, scenario);
    const choice = await planFormChoice(of, wanted, scenario, planningWith(engines), {
      seconds,
      onPlan: (what) => terminal.progress(`Planning ${what}`),
    });
    terminal.progress(null);
    show(choice, scenario, options, terminal);
    const outcomes = choice.plans?.ways.map(({ outcome }) => outcome) ?? [];
    if (outcomes.includes("plan")) return EXIT.plan;
    return outcomes.includes("unknown") ? EXIT.noAnswer : EXIT.noPlan;
  });
}

/** What stands against comparing the forms of an item in a scenario; null where nothing does. */
function problemIn(
  of: string,
  { price, credit, want = [] }: FormsCommandOptions,
  scenario: Scenario,
): string | null {
  if (price !== undefined || credit !== undefined)
    return "--price and --credit go without a scenario, which states both itself. Leave them out.";
  const several = boughtInSeveralForms(scenario);
  if (!several.includes(of)) {
    const remedy =
      several.length > 0
        ? `Write one of: ${several.join(", ")}.`
        : "Add another item with `of:` and the item's name, its form and its price.";
    return `the scenario buys no two forms of "${of}". ${remedy}`;
  }
  const parts = foodOf(of, scenario);
  const unknown = want.find((name) => !parts.some((part) => isNamed(part, of, [name])));
  return unknown === undefined
    ? null
    : `--want ${unknown}: no form of ${of} gives such a part for eating. Write one of: ${parts.join(", ")}.`;
}

/** Whether a part is among the names, which may leave the item's out. */
function isNamed(part: string, of: string, names: readonly string[]): boolean {
  return names.some((name) => part === name || part === `${of} ${name}`);
}

async function byPrices(options: FormsCommandOptions, terminal: Terminal): Promise<ExitCode> {
  const ownTests = await readOwnTests(options.kitchen);
  const { tables, problems: ofTables } = kitchenYields(ownTests);
  const [found] = findItems(tables.items, options.item);
  const { price = [], want = [], credit = [], currency, wage = NO_MONEY, out } = options;
  const complaints = ofTables.map(({ file, line, what, remedy }) => `${file}:${line}: ${what}. ${remedy}`);
  if (found === undefined) complaints.push(unknownItem(options.item, tables.items));
  if (price.length === 0)
    complaints.push('--price is missing. Write one for each form: --price "crown=4.20 / kg"');
  if (want.length === 0) complaints.push("--want is missing. Write the parts you buy it for: --want floret");
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) complaints.push(obstacle);
  const item = found?.name ?? "";
  const forms = tables.items.filter(({ name }) => name === item);
  const asked = { item, prices: price, wanted: want, credits: credit, currency };
  const { scenario, wanted, problems } =
    complaints.length > 0
      ? { scenario: null, wanted: [], problems: [] }
      : formsAtPrices(asked, forms, ownTests);
  for (const complaint of [...complaints, ...problems]) terminal.complain(complaint);
  if (scenario === null) return EXIT.wrongInput;
  const waged: Scenario = { ...scenario, wage };
  show(composeFormChoice(item, wanted, waged, null), waged, options, terminal);
  return EXIT.plan;
}

function show(
  choice: FormChoiceJson,
  scenario: Scenario,
  { json, out }: FormsCommandOptions,
  terminal: Terminal,
): void {
  const document = formChoiceDocument(choice, scenario);
  if (json === true) terminal.print(JSON.stringify(choice, null, 2));
  else printDocument(document, terminal);
  if (out !== undefined)
    writePages(out, [pageOf(document)], json === true ? terminal.complain : terminal.print);
}

/** What the forms of an item cost, as given on the command line. */
export interface AskedPrices {
  /** As the tables call it. */
  readonly item: string;
  /** "FORM=PRICE" each, the price as scenario files write it. */
  readonly prices: readonly string[];
  /** Names of parts wanted, with or without the item's. */
  readonly wanted: readonly string[];
  /** "PART=PRICE" each: what a weight of trim is worth to this kitchen. */
  readonly credits: readonly string[];
  readonly currency: string;
}

export interface PricedAtHand {
  /** Every form as an item; null where there are problems. */
  readonly scenario: Scenario | null;
  /** Full names. */
  readonly wanted: readonly string[];
  readonly problems: readonly string[];
}

/** A price by which pounds are spoken of. */
const BY_POUND = /\b(?:lbs?|pounds?|oz|ounces?)\b/;
/** A day for a scenario that is not planned. */
const ANY_DAY = "2026-01-01";

/** The forms with the yields of the tables, or of the kitchen's own tests, as items of a scenario that plans nothing. */
export function formsAtPrices(
  asked: AskedPrices,
  forms: readonly TableItem[],
  ownTests: OwnTestsFile | null,
): PricedAtHand {
  const { item, prices, credits } = asked;
  const known = foodPartsOf(forms);
  const { tables } = kitchenYields(ownTests);
  const problems: string[] = [];
  const full = (name: string, where: string): string[] => {
    const part = known.find((each) => each === name || each === `${item} ${name}`);
    if (part !== undefined) return [part];
    const meant = didYouMean(name, [...known, ...known.map((each) => each.slice(item.length + 1))]);
    const remedy = meant === null ? `Write one of: ${known.join(", ")}` : `Did you mean "${meant}"?`;
    problems.push(`${where}: no form of ${item} gives a part for eating called "${name}". ${remedy}`);
    return [];
  };
  const wanted = asked.wanted.flatMap((name) => full(name, `--want ${name}`));
  const credited = credits.flatMap((written) => {
    const { name, price } = named(written);
    return full(name, `--credit "${written}"`).map((part) => `${quoted(part)}: {credit: ${quoted(price)}}`);
  });
  const asForms = prices.map((written) => named(written).name);
  for (const form of new Set(asForms.filter((each, index) => asForms.indexOf(each) < index)))
    problems.push(`--price "${form}=..." is given more than once. Write one price for each form.`);
  const scenarios = prices.flatMap((written) => {
    const { name: form, price } = named(written);
    const own = forms.filter((each) => each.form === form);
    const text = scenarioText(asked, { form, price }, foodPartsOf(own.length > 0 ? own : forms), credited);
    const found = resolveScenario(readScenario({ file: "", text }), tables);
    for (const { what, remedy } of found.problems) problems.push(`--price "${written}": ${what}. ${remedy}`);
    return found.scenario ?? [];
  });
  const [first] = scenarios;
  if (first === undefined || problems.length > 0) return { scenario: null, wanted, problems };
  const parts = new Map(scenarios.flatMap((each) => each.parts.map((part) => [part.name, part] as const)));
  const items = scenarios.flatMap((each) => each.items);
  return { scenario: { ...first, items, parts: [...parts.values()] }, wanted, problems };
}

function foodPartsOf(forms: readonly TableItem[]): string[] {
  const parts = forms.flatMap(({ breakdowns }) => breakdowns.flatMap((each) => each.parts));
  return [...new Set(parts.filter((each) => each.class === "food").map(({ part }) => part))];
}

function scenarioText(
  { item, currency, prices }: AskedPrices,
  { form, price }: { form: string; price: string },
  parts: readonly string[],
  credited: readonly string[],
): string {
  const entry = `{of: ${quoted(item)}, form: ${quoted(form)}, price: ${quoted(price)}}`;
  return [
    `scenario: ${quoted(item)}`,
    `currency: ${quoted(currency)}`,
    ...(prices.some((written) => BY_POUND.test(written)) ? ["scale_step: 0.1 oz"] : []),
    `services: [{name: any, date: ${ANY_DAY}}]`,
    `items: {${quoted(`${item}, ${form}`)}: ${entry}}`,
    ...(credited.length === 0 ? [] : [`parts: {${credited.join(", ")}}`]),
    `dishes: {any: {portions: 1, lines: [{amount: 1 kg, from: [${parts.map(quoted).join(", ")}]}]}}`,
  ].join("\n");
}

function named(written: string): { name: string; price: string } {
  const at = written.indexOf("=");
  return at < 0
    ? { name: written.trim(), price: "" }
    : { name: written.slice(0, at).trim(), price: written.slice(at + 1).trim() };
}

/** JSON is YAML. */
function quoted(text: string): string {
  return JSON.stringify(text);
}
