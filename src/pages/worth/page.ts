import type { WorthJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, grams } from "../../quantity/index.js";
import { type DocumentOptions, documentPage } from "../document.js";
import type { Page } from "../render.js";
import { datesText, servicesText } from "../view.js";
import { amountOf, counted, type Writing, writingFor } from "../writing.js";
import { differenceLines, partSentence, purchaseLines } from "./words.js";

/** Text for the page and the terminal alike. */
export type WorthData = {
  readonly lead: string;
  readonly dishes: readonly {
    readonly name: string;
    readonly sub: string;
    readonly without: readonly string[];
    readonly purchases: readonly string[];
    readonly more: readonly string[];
    readonly less: readonly string[];
  }[];
  readonly candidates: readonly {
    readonly name: string;
    readonly made: readonly string[];
    readonly purchases: readonly string[];
  }[];
  readonly items: readonly {
    readonly name: string;
    readonly sub: string;
    readonly more: readonly string[];
    readonly less: readonly string[];
  }[];
  readonly parts: readonly {
    readonly name: string;
    readonly sub: string;
    readonly step: string;
    readonly more: readonly string[];
    readonly less: readonly string[];
  }[];
  readonly small: string;
};

const SLUG = "worth";
const TITLE = "What it is worth";

/** The page on what each part, item and dish is worth: what the plan would waste and spend without it, or with more. */
export function worthPage(
  worth: WorthJson,
  scenario: Scenario,
  options: Pick<DocumentOptions, "assets" | "home" | "nav"> = {},
): Page {
  const writing = writingFor(scenario);
  const head = [scenario.name, servicesText(scenario), datesText(scenario, writing)];
  return documentPage(SLUG, TITLE, worthData(worth, scenario), { ...options, head });
}

export function worthData(worth: WorthJson, scenario: Scenario): WorthData {
  const writing = writingFor(scenario);
  const lines = (difference: WorthJson["parts"][number]["more"]): string[] =>
    differenceLines(difference, scenario, writing);
  return {
    lead: leadText(worth),
    dishes: worth.dishes.map(({ dish, portions, without, more, less }) => ({
      name: dish,
      sub: counted(writing, portions, "portion"),
      without: lines(without),
      purchases: purchaseLines(without, writing),
      more: lines(more),
      less: lines(less),
    })),
    candidates: worth.candidates.map(({ dish, service, made }) => ({
      name: scenario.services.length > 1 ? `${dish}, ${service}` : dish,
      made: lines(made),
      purchases: purchaseLines(made, writing),
    })),
    items: worth.items.map(({ item, units, orderUnit, more, less }) => ({
      name: item,
      sub: units === 0 ? "none bought" : `${amountOf(writing, units, orderUnit, item)} bought`,
      more: lines(more),
      less: lines(less),
    })),
    parts: worth.parts
      .map((part) => ({
        name: part.part,
        sub: partSentence(part, scenario, writing),
        step: stepText(part.step, part.part, scenario, writing),
        more: lines(part.more),
        less: lines(part.less),
      }))
      .filter(({ sub, more, less }) => sub !== "" || more.length + less.length > 0),
    small: smallText(worth, writing),
  };
}

function leadText({ outcome }: WorthJson): string {
  if (outcome === "no plan")
    return "There is no plan to speak of: plan the scenario to see what would make one.";
  if (outcome === "no answer")
    return "No plan was found in the time. That is not a proof that there is none.";
  return "What the plan would waste and spend if one thing were otherwise, + more and − less.";
}

/** "100 g", or "1 piece" where the part moves whole. */
function stepText(step: string, part: string, { parts }: Scenario, writing: Writing): string {
  const isPiece = parts.some(({ name, pieceWeight }) => name === part && pieceWeight !== null);
  return isPiece ? counted(writing, new Decimal(1), "piece") : writing.weight(grams(step));
}

function smallText({ asked: { done, of }, outcome }: WorthJson, writing: Writing): string {
  if (outcome !== "worth") return "";
  const method =
    "Each figure is what two whole plans differ by: the scenario with one thing changed is planned again, starting from the plan in hand.";
  return done < of
    ? `${method} ${writing.count(done)} of ${writing.count(of)} questions were answered in the time; the others are left blank.`
    : method;
}
