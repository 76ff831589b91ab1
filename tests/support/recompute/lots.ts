import { Decimal, ONE, sumOf, type Value } from "./figures.js";
import type { AskedDish, AskedItem, AskedStep, PrintedDish, PrintedLot, PrintedPlan } from "./printed.js";

export function originOf({ cutFor, stock }: PrintedLot): string {
  return cutFor === null ? `on hand ${stock}` : `cut for ${cutFor}`;
}

/** The place of a service in the plan; the first for what was on hand. */
export function serviceAt(name: string | null, { services }: PrintedPlan): number {
  return Math.max(
    0,
    services.findIndex((service) => service.name === name),
  );
}

export function classOf(part: string, { asked }: PrintedPlan): string {
  return asked.parts.find((each) => each.part === part)?.class ?? "unknown";
}

export function stepNamed(name: string, { asked }: PrintedPlan): AskedStep | undefined {
  return asked.steps.find(({ step }) => step === name);
}

export function itemNamed(name: string, { asked }: PrintedPlan): AskedItem | undefined {
  return asked.items.find(({ item }) => item === name);
}

export function dishNamed(name: string, { asked }: PrintedPlan): AskedDish | undefined {
  return asked.dishes.find(({ dish }) => dish === name);
}

/** What a step gives of food, for a weight of one taken. */
export function foodGiven({ gives }: AskedStep, plan: PrintedPlan): Decimal {
  return sumOf(
    gives.filter(({ part }) => classOf(part, plan) === "food"),
    ({ fraction }) => fraction,
  );
}

/** Whether a lot is the entry of the stock that it stems from, as it was found. */
export function isAsFound(part: string, { stock }: PrintedLot, { onHand }: PrintedPlan): boolean {
  return stock !== null && onHand.filter(({ kind }) => kind === "part")[stock]?.name === part;
}

/** Grams that were worked for a gram of a lot: down the chain by what the steps give of food, never less than one. */
export function beforeWorking(part: string, lot: PrintedLot, plan: PrintedPlan): Decimal {
  const { items, steps } = plan.asked;
  const isCut = items.some(({ breakdowns }) =>
    breakdowns.some(({ gives }) => gives.some((each) => each.part === part)),
  );
  if (lot.stock === null ? isCut : isAsFound(part, lot, plan)) return ONE;
  const ways = steps
    .filter((step) => step.gives.some((made) => made.part === part) && foodGiven(step, plan).greaterThan(0))
    .flatMap((step) =>
      step.from.map((source) => beforeWorking(source, lot, plan).div(foodGiven(step, plan))),
    );
  return Decimal.max(ONE, ...ways);
}

/** What so many portions of a cooking weigh. */
export function portionsWeigh({ weight, portions }: PrintedDish, some: Value): Decimal {
  return new Decimal(weight).times(some).div(portions);
}

/** How many weights, each of them rounded to the scale, are in a cooking. */
export function goingsInto({ dish, service }: PrintedDish, { goings }: PrintedPlan): number {
  return goings.filter((going) => going.dish === dish && going.service === service).length;
}
