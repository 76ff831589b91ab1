import type { FormChoiceJson } from "../contract/index.js";
import { composeFormChoice, planFormChoice } from "../insight/index.js";
import type { Scenario } from "../kitchen/index.js";
import { kitchenYields, readOwnTests } from "../kitchen-files/index.js";
import { formChoicePage } from "../pages/index.js";
import { planningWith } from "../planning/index.js";
import { type Money, NO_MONEY } from "../quantity/index.js";
import { boughtInSeveralForms, foodOf, foodServedOf } from "../yields/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { findItems, unknownItem } from "./find-item.js";
import { formsAtPrices } from "./form-prices.js";
import { printFormChoice } from "./forms-text.js";
import type { Terminal } from "./terminal.js";
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
  if (json === true) terminal.print(JSON.stringify(choice, null, 2));
  else printFormChoice(choice, scenario, terminal);
  if (out !== undefined)
    writePages(out, [formChoicePage(choice, scenario)], json === true ? terminal.complain : terminal.print);
}
