import {
  aimText,
  type Difference,
  gramsText,
  moneyText,
  type PlanJson,
  type WorthJson,
} from "../../contract/index.js";
import type { Part, Scenario } from "../../kitchen/index.js";
import { Decimal, grams, money, NO_WEIGHT, plus, type Weight } from "../../quantity/index.js";
import { changesBetween } from "../changes.js";
import {
  type Asked,
  Clock,
  type PlanAgain,
  type PlannedAgain,
  type Planning,
  whereCostingFits,
} from "../planning.js";
import {
  stepOf,
  withBought,
  withMade,
  withMore,
  withoutDish,
  withoutUse,
  withPortions,
  withTaken,
} from "./changed.js";

interface WorthOptions {
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
function difference(base: PlanAgain, again: PlannedAgain, scenario: Scenario): Difference {
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

function nothing(scenario: Scenario, again: Exclude<PlannedAgain, PlanAgain>): WorthJson {
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

/** A scenario changed in one thing; what its plan has more or less of answers the question. */
export interface Question {
  readonly about: "part" | "item" | "dish" | "candidate";
  readonly name: string;
  /** The service a candidate is made for. */
  readonly service: string | null;
  readonly asks: "more" | "less" | "without" | "made";
  readonly scenario: Scenario;
}

/** A part of the plan that people eat. */
interface PartInPlan {
  readonly part: Part;
  readonly weight: Weight;
  readonly wasted: Weight;
  /** The last service it is cut for; null where it is in the house only, or the plan has none. */
  readonly cutFor: number | null;
}

/** Every question on a plan, those first that a cook asks first. */
function questionsOf(scenario: Scenario, plan: PlanJson): Question[] {
  return [
    ...dishesLeftOut(scenario, plan),
    ...candidatesOf(scenario, plan).map(({ dish, service }): Question => {
      const at = scenario.services.findIndex(({ name }) => name === service);
      return {
        about: "candidate",
        name: dish.name,
        service,
        asks: "made",
        scenario: withMade(scenario, dish, at),
      };
    }),
    ...itemQuestions(scenario, plan),
    ...partsInPlan(scenario, plan).flatMap((entry) => partQuestions(scenario, entry)),
    ...portionQuestions(scenario, plan),
  ];
}

/** Food that some line or step takes, or that the plan has, the most first. */
function partsInPlan(scenario: Scenario, plan: PlanJson): PartInPlan[] {
  const made = [...plan.cuts, ...plan.preps];
  const at = (service: string | null): number => scenario.services.findIndex(({ name }) => name === service);
  const isWanted = (name: string): boolean =>
    scenario.dishes.some(({ lines }) => lines.some(({ from }) => from.some(({ part }) => part === name))) ||
    scenario.steps.some(({ from }) => from.includes(name));
  return scenario.parts
    .filter((part) => part.class === "food")
    .map((part) => {
      const gives = made.flatMap(({ parts }) => parts.filter((each) => each.part === part.name));
      const held = plan.onHand.filter(({ kind, name }) => kind === "part" && name === part.name);
      const services = [
        ...plan.cuts
          .filter(({ parts }) => parts.some((each) => each.part === part.name))
          .map(({ service }) => at(service)),
        ...plan.preps
          .filter(({ parts }) => parts.some((each) => each.part === part.name))
          .map(({ cutFor }) => at(cutFor)),
      ].filter((service) => service >= 0);
      const wasted = plan.transfers.filter(
        ({ from, to }) => from === `part:${part.name}` && to.startsWith("wastedFood:"),
      );
      return {
        part,
        weight: sumOf([...gives, ...held]),
        wasted: sumOf(wasted),
        cutFor: services.length === 0 ? null : Math.max(...services),
      };
    })
    .filter(({ part, weight }) => weight > NO_WEIGHT || isWanted(part.name))
    .sort((one, other) => (one.weight < other.weight ? 1 : one.weight > other.weight ? -1 : 0));
}

/** Dishes made nowhere, by each service that may offer them. */
function candidatesOf({ dishes, services }: Scenario, plan: PlanJson) {
  return dishes
    .filter(({ name }) => plan.dishes.every(({ dish }) => dish !== name))
    .flatMap((dish) => dish.services.map((at) => ({ dish, service: services[at]?.name ?? "" })));
}

function partQuestions(scenario: Scenario, { part, weight, cutFor }: PartInPlan): Question[] {
  const question = (asks: Question["asks"], changed: Scenario): Question => ({
    ...{ about: "part", name: part.name, service: null, asks, scenario: changed },
  });
  const step = stepOf(part);
  const service = cutFor ?? 0;
  return [
    ...(weight > NO_WEIGHT ? [question("without", withoutUse(scenario, part.name))] : []),
    question("more", withMore(scenario, part.name, step, service)),
    ...(weight >= step ? [question("less", withTaken(scenario, part.name, step, service))] : []),
  ];
}

function itemQuestions(scenario: Scenario, plan: PlanJson): Question[] {
  return scenario.items.flatMap((item) => {
    const units = boughtOf(plan, item.name);
    const asked = [
      ["more", withBought(scenario, item, { least: units + 1 })],
      ["less", withBought(scenario, item, { most: units - 1 })],
    ] as const;
    return asked.flatMap(([asks, changed]): Question[] =>
      changed === null ? [] : [{ about: "item", name: item.name, service: null, asks, scenario: changed }],
    );
  });
}

/** Order units of an item bought in all. */
export function boughtOf({ purchases }: PlanJson, item: string): number {
  return purchases.reduce((sum, { item: name, units }) => (name === item ? sum + units : sum), 0);
}

/** Portions of a dish cooked in all. */
export function portionsOf({ dishes }: PlanJson, dish: string): number {
  return dishes.reduce((sum, { dish: name, portions }) => (name === dish ? sum + portions : sum), 0);
}

function dishesLeftOut(scenario: Scenario, plan: PlanJson): Question[] {
  return scenario.dishes
    .filter(({ name }) => portionsOf(plan, name) > 0)
    .map((dish) => ({
      ...{ about: "dish", name: dish.name, service: null, asks: "without" },
      scenario: withoutDish(scenario, dish),
    }));
}

/** One portion more or less eaten of a dish that one service alone offers. */
function portionQuestions(scenario: Scenario, plan: PlanJson): Question[] {
  return scenario.dishes.flatMap((dish) => {
    const eaten = plan.dishes.find(({ dish: name }) => name === dish.name)?.eaten;
    if (dish.services.length !== 1 || eaten === undefined) return [];
    const question = (asks: Question["asks"], changed: Scenario): Question => ({
      ...{ about: "dish", name: dish.name, service: null, asks, scenario: changed },
    });
    return [
      question("more", withPortions(scenario, dish, { least: eaten + 1 })),
      question("less", withPortions(scenario, dish, { most: eaten - 1 })),
    ];
  });
}

function sumOf(weighed: readonly { readonly weight: string }[]): Weight {
  return weighed.reduce((sum, { weight }) => plus(sum, grams(weight)), NO_WEIGHT);
}
