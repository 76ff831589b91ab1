import { Decimal, toGrams } from "../quantity/index.js";
import { cookingMinimum, hazardsOf, temperatureText } from "../safety/index.js";
import type { TableItem, TablePart } from "../yields/index.js";

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
