import { aimText, type Difference, gramsText, moneyText, type WorthJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, grams, money } from "../../quantity/index.js";
import { type Again, type Asked, Clock, type PlanAgain, type Planning, whereCostingFits } from "../again.js";
import { changesBetween } from "../changes.js";
import { stepOf } from "./changed.js";
import { boughtOf, candidatesOf, partsInPlan, portionsOf, type Question, questionsOf } from "./questions.js";

export interface WorthOptions {
  /** Most seconds for all questions together. */
  readonly seconds: number;
  readonly onProgress?: (asked: Asked) => void;
}

/** No question may take the time of all the others. */
const SECONDS_EACH = 5;

/**
 * What every part, item and dish of a plan is worth: each question plans a scenario changed in one thing again,
 * starting from the plan in hand, and the answer is what the two plans differ by.
 */
export async function worthOf(
  scenario: Scenario,
  planning: Planning,
  { seconds, onProgress }: WorthOptions,
): Promise<WorthJson> {
  const clock = new Clock(seconds);
  const base = await planning.again(scenario, { seconds: clock.left });
  if (base.kind !== "plan") return nothing(scenario, base);
  const questions = questionsOf(scenario, base.plan);
  const parts = partsInPlan(scenario, base.plan);
  const of = questions.length + parts.length;
  const answers = new Map<string, Difference>();
  let done = 0;
  const told = (): void => {
    done += 1;
    onProgress?.({ done, of });
  };
  for (const question of questions) {
    if (clock.isOver) break;
    const limits = { seconds: Math.min(SECONDS_EACH, clock.left), start: base.point };
    answers.set(
      keyOf(question),
      difference(base, await whereCostingFits(planning.again(question.scenario, limits)), scenario),
    );
    told();
  }
  const most = new Map<string, number | null>();
  for (const { part } of parts) {
    if (clock.isOver) break;
    most.set(part.name, await planning.mostUsed(scenario, part.name, Math.min(SECONDS_EACH, clock.left)));
    told();
  }
  const answer = (
    about: Question["about"],
    name: string,
    asks: Question["asks"],
    service: string | null = null,
  ) => answers.get(keyOf({ about, name, asks, service })) ?? null;
  return {
    ...head(scenario),
    outcome: "worth",
    asked: { done, of },
    parts: parts.map(({ part, weight, wasted }) => ({
      part: part.name,
      weight: gramsText(weight),
      wasted: gramsText(wasted),
      step: gramsText(stepOf(part)),
      more: answer("part", part.name, "more"),
      less: answer("part", part.name, "less"),
      without: answer("part", part.name, "without"),
      mostUsed: kilogramsText(most.get(part.name) ?? null),
    })),
    items: scenario.items.map(({ name, orderUnit }) => ({
      item: name,
      units: boughtOf(base.plan, name),
      orderUnit: orderUnit.name,
      more: answer("item", name, "more"),
      less: answer("item", name, "less"),
    })),
    dishes: scenario.dishes
      .filter(({ name }) => portionsOf(base.plan, name) > 0)
      .map(({ name }) => ({
        dish: name,
        portions: portionsOf(base.plan, name),
        more: answer("dish", name, "more"),
        less: answer("dish", name, "less"),
        without: answer("dish", name, "without"),
      })),
    candidates: candidatesOf(scenario, base.plan).map(({ dish, service }) => ({
      dish: dish.name,
      service,
      made: answer("candidate", dish.name, "made", service),
    })),
  };
}

function keyOf({ about, name, asks, service }: Omit<Question, "scenario">): string {
  return JSON.stringify([about, name, asks, service]);
}

/** What the second plan has more of than the first. */
function difference(base: PlanAgain, again: Again, scenario: Scenario): Difference {
  if (again.kind === "no plan") return { kind: "no plan" };
  if (again.kind === "unknown") return { kind: "no answer" };
  // Rounding to the scale would blur what a step changes: the figures are those from before it.
  const counted = (aim: "waste" | "cost"): number =>
    aim === scenario.aim ? again.objective - base.objective : again.counted[aim] - base.counted[aim];
  return {
    kind: "plan",
    aim: aimText(scenario.aim, again.objective - base.objective),
    waste: gramsText(grams(new Decimal(counted("waste")).times(1000))),
    netSpend: moneyText(money(new Decimal(counted("cost")))),
    proved: base.proved && again.proved,
    purchases: changesBetween(base.plan, again.plan, scenario).filter(({ kind }) => kind === "buy"),
  };
}

/** To the gram, downwards: what is beyond it is of no use. */
function kilogramsText(kilograms: number | null): string | null {
  if (kilograms === null) return null;
  return gramsText(grams(new Decimal(kilograms).times(1000).plus("0.001").floor()));
}

function head({ name, currency, aim }: Scenario) {
  return { schema: "trim-to-use/worth@1" as const, scenario: name, currency, aim };
}

function nothing(scenario: Scenario, again: Exclude<Again, PlanAgain>): WorthJson {
  return {
    ...head(scenario),
    outcome: again.kind === "no plan" ? "no plan" : "no answer",
    asked: { done: 0, of: 0 },
    parts: [],
    items: [],
    dishes: [],
    candidates: [],
  };
}
