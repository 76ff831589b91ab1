import type { FormChoiceJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { Decimal, grams, money } from "../quantity/index.js";
import type { Block, Document, Row } from "./document.js";
import { datesText, servicesText, shortName } from "./view.js";
import { amountOf, capital, counted, listed, type Writing, writingFor } from "./writing.js";

type Plans = NonNullable<FormChoiceJson["plans"]>;

/** The forms of an item side by side, by usable weight and by the plans of a scenario, with their break-evens said. */
export function formChoiceDocument(choice: FormChoiceJson, scenario: Scenario): Document {
  const writing = writingFor(scenario);
  const { item, plans, wage } = choice;
  const kg = writing.largeUnit;
  const perUsable = `Cost a usable ${kg}`;
  const trim = "Trim counts for the credit stated for it, else for nothing.";
  const hands = wage === null ? "" : `${perUsable} counts hands at the wage. `;
  return {
    slug: "form-choice",
    title: "Which form to buy",
    head:
      plans === null ? [item] : [item, scenario.name, servicesText(scenario), datesText(scenario, writing)],
    blocks: [
      {
        kind: "words",
        text: cheapestText(choice, writing),
        strong: bestText(choice, writing),
        look: "answer",
      },
      {
        kind: "table",
        caption: `By usable weight: ${wantedText(choice)}`,
        about: wage === null ? "" : `hands at ${costText(wage, writing)} an hour`,
        ...formRows(choice, perUsable, writing),
      },
      {
        kind: "list",
        head: "Where they break even, by usable weight",
        items: choice.forms.flatMap((form) =>
          [arithmeticText(form, choice, writing), minutesText(form, choice, writing)].filter(
            (text) => text !== "",
          ),
        ),
      },
      ...(plans === null ? [] : plansBlocks(choice, plans, writing)),
      {
        kind: "words",
        text: `Usable is what is wanted of a weight as bought. ${hands}${trim}`,
        look: "quiet",
      },
    ],
  };
}

function formRows(choice: FormChoiceJson, perUsable: string, writing: Writing) {
  const kg = writing.largeUnit;
  const timed = choice.forms.some(({ minutesPerKilogram }) => minutesPerKilogram !== "0");
  const figure = { figures: true, width: "half" } as const;
  return {
    of: "Form",
    columns: [
      { ...figure, head: `Price a ${kg}` },
      { ...figure, head: "Usable" },
      ...(timed ? [{ ...figure, head: `Min a ${kg}` }] : []),
      { ...figure, head: perUsable, strong: true },
    ],
    rows: choice.forms.map((form) => {
      const price = rateText(form.pricePerKilogram, writing);
      return {
        name: capital(formName(form.item, choice)),
        sub: form.breakdown,
        cells: [
          form.unit === kg
            ? price
            : { lines: [price], subs: [`${costText(form.price, writing)} a ${form.unit}`] },
          writing.rate(new Decimal(form.usable)),
          ...(timed ? [minutesOf(form.minutesPerKilogram, writing)] : []),
          rateText(form.usableCost, writing),
        ],
      };
    }),
  };
}

function plansBlocks(choice: FormChoiceJson, { aim, ways, breakEvens }: Plans, writing: Writing): Block[] {
  const figures = ["All spent", `Waste, ${writing.unit}`, `Used, ${writing.unit}`];
  const rates = [`Cost a ${writing.largeUnit} used`, "Min", ...(choice.wage === null ? [] : ["With hands"])];
  const how =
    "Each price was planned with, and the one a hundredth below it: the first saves nothing, the other does. Used is the food of it that cutting gave and the house had, less what is wasted. Spend is all the plan buys; minutes are of cutting and further steps, where they are stated.";
  return [
    {
      kind: "table",
      caption: `The plan of ${AIMS[aim]} with each form alone, and with the choice free`,
      of: "Form",
      tight: true,
      columns: [
        { head: "Buy", width: "whole" },
        ...[...figures, ...rates].map((head) => ({ head, figures: true })),
      ],
      rows: ways.map((way) => wayRow(way, choice, writing)),
    },
    {
      kind: "list",
      head: breakEvenHead(aim),
      items: breakEvens.map((each) => plansText(each, choice, writing)),
    },
    { kind: "words", text: breakEvens.length === 0 ? "" : how, look: "quiet" },
  ];
}

function wayRow(
  { item, outcome, proved, figures }: Plans["ways"][number],
  choice: FormChoiceJson,
  writing: Writing,
): Row {
  const cost = (text: string): string => costText(text, writing);
  const name = item === null ? "Choice free" : `${capital(formName(item, choice))} alone`;
  if (figures === null) {
    const none =
      outcome === "no plan" ? "No plan can be made of it; that is proved." : "Not settled in the time.";
    return { name, none, cells: [] };
  }
  const { bought, netSpend, waste, used, costPerUsed, minutes, wageCost } = figures;
  const lines = bought.map((each) => `${boughtText(each, choice, writing)}, ${cost(each.cost)}`);
  return {
    name: proved ? name : `${name} (best found)`,
    cells: [
      { lines: lines.length === 0 ? ["nothing"] : lines },
      cost(netSpend),
      writing.shown(grams(waste)),
      writing.shown(grams(used)),
      costPerUsed === null ? "–" : rateText(costPerUsed, writing),
      writing.decimal(new Decimal(minutes), 0),
      ...(wageCost === null
        ? []
        : [
            {
              lines: [cost(new Decimal(netSpend).plus(wageCost).toFixed())],
              subs: [`hands ${cost(wageCost)}`],
            },
          ]),
    ],
  };
}

type Form = FormChoiceJson["forms"][number];
type BreakEven = Plans["breakEvens"][number]["instead"];

export const AIMS = {
  waste: "least waste",
  cost: "least cost",
  balanced: "least cost and waste together",
} as const;

/** By which plans break-evens are told: by cost, unless waste has a price. */
export function breakEvenHead(aim: Plans["aim"]): string {
  return `Where they break even, by plans of ${AIMS[aim === "balanced" ? aim : "cost"]}`;
}

/** What a form is called: its form where that tells it apart, else the item as the scenario names it. */
export function formName(item: string, { forms }: Pick<FormChoiceJson, "forms">): string {
  const form = forms.find((each) => each.item === item);
  if (form === undefined) return item;
  return forms.filter((each) => each.form === form.form).length === 1 ? form.form : item;
}

/** "4 crowns", "7 bunches with tops", "3 kg of cut florets"; else "12 bulbs (untrimmed)". */
export function boughtText(
  { item, units, unit }: { readonly item: string; readonly units: number; readonly unit: string },
  choice: Pick<FormChoiceJson, "forms">,
  writing: Writing,
): string {
  const name = formName(item, choice);
  if (name.startsWith(`${unit} `)) return `${counted(writing, units, unit)}${name.slice(unit.length)}`;
  const byWeight = /^(kg|lb)$|\d/.test(unit);
  return name === item || name === unit || name.endsWith(` ${unit}`) || byWeight
    ? amountOf(writing, units, unit, name)
    : `${counted(writing, units, unit)} (${name})`;
}

/** An amount of money, which JSON holds as text. */
export function costText(text: string, writing: Writing): string {
  return writing.money(money(new Decimal(text)));
}

/** What a kilogram costs, for the unit of weight of the kitchen: "€3.75", without the unit. */
export function rateText(perKilogram: string, writing: Writing): string {
  return writing.money(money(writing.perLarge(new Decimal(perKilogram))));
}

/** Minutes that a kilogram takes, for the unit of weight of the kitchen. */
export function minutesOf(perKilogram: string, writing: Writing): string {
  return writing.decimal(writing.perLarge(new Decimal(perKilogram)), 1);
}

/** A price as it is told, to the hundredth: "€1.20 a crown (€3.75 a kg)". */
export function priceText(price: string, perKilogram: string, unit: string, writing: Writing): string {
  const asked = `${costText(price, writing)} a ${unit}`;
  return unit === writing.largeUnit
    ? asked
    : `${asked} (${rateText(perKilogram, writing)} a ${writing.largeUnit})`;
}

/** The parts that are usable here, each without the item's name. */
export function wantedText({ item, wanted }: Pick<FormChoiceJson, "item" | "wanted">): string {
  return listed(wanted.map((part) => shortName(part, item)));
}

/** Which form is cheapest for what is wanted, in a sentence. */
export function cheapestText(choice: FormChoiceJson, writing: Writing): string {
  const [first, second] = choice.forms;
  if (first === undefined) return "None of these forms is bought and gives what is wanted.";
  const cost = ({ usableCost }: Form): string => rateText(usableCost, writing);
  const kg = writing.largeUnit;
  const name = capital(formName(first.item, choice));
  if (second === undefined)
    return `${name} costs ${cost(first)} a usable ${kg}; there is no other form beside it.`;
  const hands = choice.wage === null ? "" : ", hands counted";
  if (first.usableCost === second.usableCost)
    return `${name} and ${formName(second.item, choice)} cost the same, ${cost(first)} a usable ${kg}${hands}.`;
  return `${name} is the cheapest: ${cost(first)} a usable ${kg}${hands}; next comes ${formName(second.item, choice)} at ${cost(second)}.`;
}

/** What the plan buys where the choice is free, in a sentence; empty where nothing was planned. */
export function bestText(choice: FormChoiceJson, writing: Writing): string {
  const free = choice.plans?.ways.find(({ item }) => item === null);
  if (free === undefined) return "";
  if (free.figures === null) return "For this menu no plan was found, whichever form is bought.";
  const bought = free.figures.bought.map((each) => boughtText(each, choice, writing));
  return `For this menu buy ${listed(bought) || "none: the house has enough"}.`;
}

/** The break-even of a form by usable weight alone, in a sentence. */
export function arithmeticText(form: Form, choice: FormChoiceJson, writing: Writing): string {
  const { breakEven, unit } = form;
  if (breakEven === null) return "";
  const name = capital(formName(form.item, choice));
  const against = formName(breakEven.against, choice);
  if (new Decimal(breakEven.perKilogram).lessThanOrEqualTo(0))
    return `${name} is dearer than ${against} even if it cost nothing.`;
  return `${name} is worth it below ${priceText(breakEven.price, breakEven.perKilogram, unit, writing)}; above that, ${against} is cheaper.`;
}

/** How long trimming may take before another form is as cheap; empty without a wage. */
export function minutesText(form: Form, choice: FormChoiceJson, writing: Writing): string {
  const minutes = form.breakEven?.minutesPerKilogram ?? null;
  if (form.breakEven === null || minutes === null) return "";
  const against = formName(form.breakEven.against, choice);
  const name = capital(formName(form.item, choice));
  if (new Decimal(minutes).isNegative())
    return `${name} is dearer than ${against} even if cutting took no time.`;
  const minute = (text: string): string => `${minutesOf(text, writing)}\u00a0min`;
  return `${name} is as cheap as ${against} when cutting takes ${minute(minutes)} a ${writing.largeUnit} bought; it is counted at ${minute(form.minutesPerKilogram)}.`;
}

/** The break-evens of a form by plans, in a sentence or two. */
export function plansText(
  { item, instead, beside }: Plans["breakEvens"][number],
  choice: FormChoiceJson,
  writing: Writing,
): string {
  const unit = choice.forms.find((form) => form.item === item)?.unit ?? "unit";
  const name = capital(formName(item, choice));
  const open = [instead, beside].every(({ proved }) => proved) ? "" : " Not all of it is proved.";
  if (beside.verdict === "needed") return `${name}: without it there is no plan, whatever it costs.${open}`;
  if (instead.verdict === "terms" && beside.verdict === "terms")
    return `${name}: what its supplier asks for an order can make a plan cheaper as its price rises, so no one price tells.${open}`;
  const alone =
    instead.verdict === "needed"
      ? "alone, it makes a plan as no other form alone does"
      : breakEvenText(instead, "alone, it", "costs less than the best other form", unit, writing);
  const some = breakEvenText(beside, "bought beside the others, it", "saves", unit, writing);
  return `${name}: ${alone}; ${some}.${open}`;
}

function breakEvenText(
  { verdict, price, perKilogram }: BreakEven,
  it: string,
  saves: string,
  unit: string,
  writing: Writing,
): string {
  if (verdict === "below" && price !== null && perKilogram !== null)
    return `${it} ${saves} below ${priceText(price, perKilogram, unit, writing)}`;
  if (verdict === "never") return `${it} never ${saves}`;
  if (verdict === "any") return `${it} ${saves} at any price`;
  if (verdict === "no plan") return `${it} makes no plan`;
  if (verdict === "terms")
    return `${it} has no one price, for what its supplier asks for an order can make a plan cheaper as the price rises`;
  return `${it} could not be judged`;
}
