import type { FormChoiceJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, grams } from "../../quantity/index.js";
import type { Block, Document, Row } from "../document.js";
import { datesText, servicesText } from "../view.js";
import { capital, type Writing, writingFor } from "../writing.js";
import {
  AIMS,
  arithmeticText,
  bestText,
  boughtText,
  breakEvenHead,
  cheapestText,
  costText,
  formName,
  minutesOf,
  minutesText,
  plansText,
  rateText,
  wantedText,
} from "./words.js";

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
