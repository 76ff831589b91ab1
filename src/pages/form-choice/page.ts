import type { FormChoiceJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, grams } from "../../quantity/index.js";
import { type DocumentOptions, documentPage } from "../document.js";
import type { Page } from "../render.js";
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
  withHandsOf,
} from "./words.js";

type FormChoicePage = {
  readonly lead: string;
  /** What the plan buys where the choice is free. */
  readonly best: string;
  readonly wage: string;
  readonly wanted: string;
  readonly forms: readonly FormRow[];
  readonly minutesColumn: readonly string[];
  readonly breakEvens: readonly string[];
  readonly plans: readonly PlansTable[];
  /** Columns beside the form's in the table of plans. */
  readonly planColumns: string;
  readonly unit: string;
  /** That prices by weight are for. */
  readonly largeUnit: string;
};

type FormRow = {
  readonly form: string;
  readonly about: string;
  readonly price: string;
  readonly perKilogram: string;
  readonly usable: string;
  readonly minutes: readonly string[];
  readonly usableCost: string;
};

type PlansTable = {
  readonly head: string;
  readonly wageColumn: readonly string[];
  readonly ways: readonly WayRow[];
  readonly breakEvenHead: string;
  readonly breakEvens: readonly string[];
};

type WayRow = {
  readonly name: string;
  /** Instead of the figures, where there are none. */
  readonly none: string;
  readonly bought: readonly string[];
  readonly spend: string;
  readonly waste: string;
  readonly used: string;
  readonly costPerUsed: string;
  readonly minutes: string;
  readonly withHands: readonly { readonly total: string; readonly hands: string }[];
};

const SLUG = "form-choice";
const TITLE = "Which form to buy";

/** The forms of an item side by side, by usable weight and by the plans of a scenario, with their break-evens said. */
export function formChoicePage(
  choice: FormChoiceJson,
  scenario: Scenario,
  options: Pick<DocumentOptions, "assets" | "home" | "nav"> = {},
): Page {
  const writing = writingFor(scenario);
  const head =
    choice.plans === null
      ? [choice.item]
      : [choice.item, scenario.name, servicesText(scenario), datesText(scenario, writing)];
  return documentPage(SLUG, TITLE, formChoiceData(choice, scenario), { ...options, head });
}

export function formChoiceData(choice: FormChoiceJson, scenario: Scenario): FormChoicePage {
  const writing = writingFor(scenario);
  const cost = (text: string): string => costText(text, writing);
  const timed = choice.forms.some(({ minutesPerKilogram }) => minutesPerKilogram !== "0");
  return {
    lead: cheapestText(choice, writing),
    best: bestText(choice, writing),
    wage: choice.wage === null ? "" : `${cost(choice.wage)} an hour`,
    wanted: wantedText(choice),
    minutesColumn: timed ? [`Min a ${writing.largeUnit}`] : [],
    forms: choice.forms.map((form) => ({
      form: capital(formName(form.item, choice)),
      about: form.breakdown,
      price: form.unit === writing.largeUnit ? "" : `${cost(form.price)} a ${form.unit}`,
      perKilogram: rateText(form.pricePerKilogram, writing),
      usable: writing.rate(new Decimal(form.usable)),
      minutes: timed ? [minutesOf(form.minutesPerKilogram, writing)] : [],
      usableCost: rateText(form.usableCost, writing),
    })),
    breakEvens: choice.forms.flatMap((form) =>
      [arithmeticText(form, choice, writing), minutesText(form, choice, writing)].filter(
        (text) => text !== "",
      ),
    ),
    plans: choice.plans === null ? [] : [plansTable(choice, choice.plans, writing)],
    planColumns: choice.wage === null ? "6" : "7",
    unit: writing.unit,
    largeUnit: writing.largeUnit,
  };
}

function plansTable(
  choice: FormChoiceJson,
  { aim, ways, breakEvens }: NonNullable<FormChoiceJson["plans"]>,
  writing: Writing,
): PlansTable {
  const cost = (text: string): string => costText(text, writing);
  return {
    head: `The plan of ${AIMS[aim]} with each form alone, and with the choice free`,
    wageColumn: choice.wage === null ? [] : ["With hands"],
    ways: ways.map(({ item, outcome, proved, figures }): WayRow => {
      const name = item === null ? "Choice free" : `${capital(formName(item, choice))} alone`;
      if (figures === null) {
        const none =
          outcome === "no plan" ? "No plan can be made of it; that is proved." : "Not settled in the time.";
        const empty = {
          spend: "",
          waste: "",
          used: "",
          costPerUsed: "",
          minutes: "",
          withHands: [],
          bought: [],
        };
        return { name, none, ...empty };
      }
      return {
        name: proved ? name : `${name} (best found)`,
        none: "",
        bought:
          figures.bought.length === 0
            ? ["nothing"]
            : figures.bought.map((each) => `${boughtText(each, choice, writing)}, ${cost(each.cost)}`),
        spend: cost(figures.netSpend),
        waste: writing.shown(grams(figures.waste)),
        used: writing.shown(grams(figures.used)),
        costPerUsed: figures.costPerUsed === null ? "–" : rateText(figures.costPerUsed, writing),
        minutes: writing.decimal(new Decimal(figures.minutes), 0),
        withHands: withHandsOf(figures).map((total) => ({
          total: cost(total.toFixed()),
          hands: `hands ${cost(figures.wageCost ?? "0")}`,
        })),
      };
    }),
    breakEvenHead: breakEvenHead(aim),
    breakEvens: breakEvens.map((each) => plansText(each, choice, writing)),
  };
}
