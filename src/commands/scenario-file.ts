import { dirname } from "node:path";
import { addDays } from "../kitchen/index.js";
import { loadKitchenYields, problemsOf } from "../kitchen-files/index.js";
import { Decimal, toGrams } from "../quantity/index.js";
import { problemLines } from "../reading/index.js";
import { changeFiles } from "../records/index.js";
import { cookingMinimum, hazardsOf, temperatureText } from "../safety/index.js";
import type { TableItem, TablePart } from "../yields/index.js";
import { findItems, unknownItem } from "./find-item.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";

const DEFAULT_ITEM = "broccoli";
const DAYS_AHEAD = 7;

/** `new FILE`: writes a starter scenario, by the own tests beside it too; an existing file is left alone. */
export async function newCommand(
  file: string,
  wanted: readonly string[],
  terminal: Terminal,
): Promise<ExitCode> {
  const { tables, problems } = await loadKitchenYields(dirname(file));
  for (const line of problemLines(problems)) terminal.complain(line);
  if (problems.length > 0) return EXIT.wrongInput;
  const items: TableItem[] = [];
  for (const name of wanted.length > 0 ? wanted : [DEFAULT_ITEM]) {
    const [item] = findItems(tables.items, name);
    if (item === undefined) {
      terminal.complain(unknownItem(name, tables.items));
      return EXIT.wrongInput;
    }
    if (!items.some((other) => other.name === item.name)) items.push(item);
  }
  const date = addDays(new Date().toISOString().slice(0, 10), DAYS_AHEAD);
  let isThere = false;
  await changeFiles([file], ([text = null]) => {
    isThere = text !== null;
    return isThere ? null : [starterText(items, date)];
  });
  if (isThere) {
    terminal.complain(`${file} is there already and was left as it is. Name a new file.`);
    return EXIT.wrongInput;
  }
  terminal.print(`Wrote ${file}. Plan it with: trim-to-use plan ${file}`);
  return EXIT.plan;
}

const PORTIONS = 20;
const GRAMS_A_PORTION = 100;
/** Whole pieces seldom add up to an exact weight, so a line of them is given some room. */
const ROOM = { least: new Decimal("0.9"), most: new Decimal("1.2") };

/**
 * A scenario of these items that plans as it stands, every figure a stand-in that says so: two dishes an item,
 * one of its main part and one of the parts beside it. `date` is the service's, ISO 8601.
 */
export function starterText(items: readonly TableItem[], date: string): string {
  return `${[...heading(date), ...items.flatMap((item) => itemLines(item, date)), "", "dishes:", ...items.flatMap(dishLines)].join("\n")}\n`;
}

function heading(date: string): string[] {
  return [
    "# A starter: prices, portions and amounts are stand-ins. Put in your own, line by line.",
    "scenario: My first plan",
    "currency: EUR",
    "aim: waste                  # what is least first: waste, cost or balanced",
    "",
    "services:",
    "  - name: Dinner",
    `    date: ${date}`,
    "    sitting: dinner",
    "",
    "items:",
  ];
}

function itemLines(item: TableItem, date: string): string[] {
  const { name, form, unitName, measure, unitWeight, breakdowns } = item;
  const grams = toGrams(unitWeight).toDecimalPlaces(1).toFixed();
  const loose = measure === "loose";
  return [
    `  ${text(name)}:`,
    `    form: ${text(form)}`,
    loose
      ? "    price: 2.00 / kg        # a stand-in; also 6.20 / bag of 5 kg"
      : `    price: 1.00 / ${unitName}      # a stand-in; also 8.40 / case of 6`,
    ...(loose
      ? []
      : [
          `    unit_weight: ${grams} g      # what one ${unitName} weighs today; leave the line out for the tables'`,
        ]),
    "    # buy: no                # switches buying off; or least to most: 0 to 40",
    `    # on_hand: {amount: ${loose ? "2 kg" : `2 ${unitName}`}, value: 1.00, use_by: ${date}}`,
    `    # cut: [${breakdowns.map((each) => text(each.name)).join(", ")}]    # ways of cutting that may be used; without this line, all`,
  ];
}

function dishLines(item: TableItem): string[] {
  const parts = foodParts(item);
  const [main, ...others] = parts;
  if (main === undefined) return [];
  return [
    ...dish(`${item.name} plate`, item, [main], main),
    ...dish(
      `${item.name} second dish`,
      item,
      others.length > 0 ? [...others, main] : [main],
      others[0] ?? main,
    ),
  ];
}

function dish(name: string, item: TableItem, parts: readonly TablePart[], measured: TablePart): string[] {
  return [
    `  ${text(name)}:`,
    `    portions: ${PORTIONS}`,
    "    # ceiling: 1.50          # the most food cost a portion may carry",
    "    lines:",
    `      - amount: ${amount(item, parts, measured)}        # a portion, raw; exact or least to most`,
    ...(parts.length === 1
      ? [`        from: ${text(measured.part)}`]
      : [
          "        from:               # any of these",
          ...parts.map(({ part }) => `          - ${text(part)}`),
        ]),
    "    staples: {other staples: 0.20}    # flat cost a portion",
    ...treatments(item, parts),
    ...core(item),
  ];
}

/** What makes food of parts that are none without it. */
function treatments(item: TableItem, parts: readonly TablePart[]): string[] {
  const rules = new Map<string, string>();
  for (const { part } of parts)
    for (const { rule, hazard, authority } of hazardsOf(item.name, part))
      if (rule.kind === "only if")
        rules.set(rule.treatments[0] ?? "", `${hazard}. ${rule.text} (${authority})`);
  if (rules.size === 0) return [];
  return [
    ...[...rules.values()].map((why) => `    # ${why}`),
    `    treatments: [${[...rules.keys()].map(text).join(", ")}]`,
  ];
}

/** The code's strictest minimum for the item, whatever the dish will be. */
function core({ handling }: TableItem): string[] {
  const minimum = cookingMinimum(handling);
  if (minimum === null) return [];
  const source = `${minimum.source}; your local code comes first`;
  return [`    cooking: {core: ${text(temperatureText(minimum.temperature))}}    # ${source}`];
}

/** By the piece where the part moves whole, else a stand-in. */
function amount(item: TableItem, parts: readonly TablePart[], { fraction, pieces }: TablePart): string {
  if (parts.every((part) => part.pieces === null)) return `${GRAMS_A_PORTION} g`;
  const piece = toGrams(item.unitWeight)
    .times(fraction)
    .div(pieces ?? 1);
  const base = pieces === null ? new Decimal(GRAMS_A_PORTION) : piece;
  return `${base.times(ROOM.least).toFixed(0)} to ${base.times(ROOM.most).toFixed(0)} g`;
}

/** The food parts of the first breakdown that gives any, the largest first. */
function foodParts({ breakdowns }: TableItem): TablePart[] {
  const parts = breakdowns
    .map((breakdown) => breakdown.parts.filter((part) => part.class === "food"))
    .find((food) => food.length > 0);
  return [...(parts ?? [])].sort((a, b) => b.fraction.comparedTo(a.fraction));
}

/** A name as YAML takes it: in quotes where a sign in it would mean something. */
function text(name: string): string {
  return /^[A-Za-z][\w %()/.'-]*$/.test(name) ? name : JSON.stringify(name);
}

/** `check FILE`: every problem of the scenario or test card, and nothing else. */
export async function checkCommand(file: string, terminal: Terminal): Promise<ExitCode> {
  const problems = await problemsOf(file);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (problems.length > 0) return EXIT.wrongInput;
  terminal.print(`${file}: no problems.`);
  return EXIT.plan;
}
