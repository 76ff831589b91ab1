import {
  type Lot,
  type LotOrigin,
  type PartClass,
  partHeld,
  type RecipeLine,
  type Scenario,
  type Step,
  type Yield,
} from "../kitchen/index.js";
import { Decimal, ONE, ZERO } from "../quantity/index.js";
import { lastDayOfLot } from "../safety/index.js";

type ClassOf = (part: string) => PartClass;

/** The class of a part of the scenario by its name. */
export function classesOf({ parts }: Pick<Scenario, "parts">): ClassOf {
  const known = new Map(parts.map(({ name, class: kind }) => [name, kind]));
  return (part) => known.get(part) ?? "food";
}

/** What a step takes off of a weight of food that it takes, 0.22 being 22 %. */
export interface TakenOff {
  /** All that is no food afterwards. */
  readonly all: Decimal;
  /** Of it, what another step for the same thing would not take off. */
  readonly beyond: Decimal;
}

/** What a step takes off; null for one that takes no food, as a pot of bones does, or takes nothing off. */
export function takenOffBy(step: Step, { steps }: Scenario, classOf: ClassOf): TakenOff | null {
  const takesFood = ({ from }: Step): boolean => from.every((part) => classOf(part) === "food");
  if (!takesFood(step)) return null;
  const all = notFoodAfter(step, classOf);
  if (all.isZero()) return null;
  const least = steps
    .filter((other) => canStandFor(other, step) && takesFood(other))
    .map((other) => notFoodAfter(other, classOf))
    .reduce((found, each) => (each.lt(found) ? each : found), all);
  return { all, beyond: all.minus(least) };
}

/** What is no food of what a step gives, and what is lost of more than the water that it takes up. */
function notFoodAfter({ yields, loss, water }: Step, classOf: ClassOf): Decimal {
  const notFood = yields
    .filter(({ part }) => classOf(part) !== "food")
    .reduce((sum, { fraction }) => sum.plus(fraction), Decimal.max(ZERO, loss.minus(water)));
  return Decimal.min(ONE, notFood);
}

/** Whether another step is worked for the same thing, what it gives first, and takes all that the step takes. */
function canStandFor(other: Step, step: Step): boolean {
  return (
    other.yields[0]?.part === step.yields[0]?.part && step.from.every((part) => other.from.includes(part))
  );
}

/** Whether a step only gives food another name, as dicing rings does. */
export function isRenaming(step: Step, output: string, classOf: ClassOf): boolean {
  return (
    step.water.isZero() &&
    step.from.every((part) => classOf(part) === "food") &&
    step.yields.some(({ part, fraction }) => part === output && fraction.equals(ONE))
  );
}

/**
 * What a step's work comes to, by each thing that it gives: that part and those that further steps make of it, each
 * with the most weight taken by the step that a weight of the part stands for.
 */
export function worksInto(step: Step, { steps }: Scenario): ReadonlyMap<string, Decimal>[] {
  return step.yields.map((given) => {
    const stands = new Map<string, Decimal>();
    const follow = ({ part, fraction }: Yield, taken: Decimal): void => {
      if (fraction.isZero()) return;
      const of = taken.div(fraction);
      if (of.lte(stands.get(part) ?? ZERO)) return;
      stands.set(part, of);
      for (const { from, yields } of steps)
        if (from.includes(part)) for (const made of yields) follow(made, of);
    };
    follow(given, ONE);
    return stands;
  });
}

/** What a line of a dish cooked for a service is given, of one origin. */
export interface Given {
  readonly line: RecipeLine;
  readonly service: number;
  readonly part: string;
  readonly origin: LotOrigin;
}

/**
 * The sources of a step that a line, given what comes of it, could have had as they were: it takes the source, up to
 * all of the line, while that keeps, and states no least share of what it was given.
 */
export function takenAsItIs(
  { line, service, part, origin }: Given,
  { from }: Step,
  scenario: Scenario,
): readonly string[] {
  const worked = line.from.find((source) => source.part === part);
  if (worked?.leastShare.gt(ZERO)) return [];
  const day = scenario.services[service]?.day ?? 0;
  return from.filter((source) => {
    const taken = line.from.find((each) => each.part === source);
    if (taken === undefined || taken.mostShare.lt(ONE)) return false;
    const lastDay = lastDayOfLot({ part: source, origin }, scenario);
    return lastDay === null || day <= lastDay;
  });
}

/**
 * Sets of a step's sources of which more may have been worked than was needed. Work on a set is needed as far as lines
 * could not have had all of the set as it was, so the sets that tell are all sources, what each line could have had,
 * and what is common to several of these: any other asks no more than the largest of them within it.
 */
export function setsWorked({ from }: Step, asItIs: Iterable<readonly string[]>): (readonly string[])[] {
  const keyOf = (set: readonly string[]): string => JSON.stringify(set);
  const sets = new Map([[keyOf(from), from]]);
  for (const each of asItIs) {
    for (const set of [...sets.values()]) {
      const common = set.filter((part) => each.includes(part));
      if (common.length > 0) sets.set(keyOf(common), common);
    }
  }
  return [...sets.values()];
}

/** Whether work on a set of sources is needed for what could have had these as they were. */
export function isNeededFor(set: readonly string[], asItIs: readonly string[]): boolean {
  return set.some((part) => !asItIs.includes(part));
}

/**
 * Grams before working that a gram of a lot stands for in the limit of a destination: of what steps make, the weight
 * that the step's food was made of, down the chain, and never less than its own. Where several steps make a part, the
 * one that loses most counts, so that working what is over makes no room. What is cut or on hand as it is counts its
 * own weight: no more of it is made by a step than is used.
 */
export function weightBeforeWorking(lot: Lot, scenario: Scenario): Decimal {
  if (isHadUnworked(lot, scenario)) return ONE;
  const classOf = classesOf(scenario);
  return scenario.steps
    .filter(({ yields }) => yields.some((made) => made.part === lot.part))
    .reduce((most, { from, yields }) => {
      const food = yields
        .filter((made) => classOf(made.part) === "food")
        .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
      if (food.isZero()) return most;
      const sources = from.map((part) => weightBeforeWorking({ ...lot, part }, scenario).div(food));
      return Decimal.max(most, ...sources);
    }, ONE);
}

function isHadUnworked({ part, origin }: Lot, scenario: Scenario): boolean {
  const held = partHeld(origin, scenario);
  if (held !== undefined) return held === part;
  return scenario.items.some(({ breakdowns }) =>
    breakdowns.some(({ yields }) => yields.some((given) => given.part === part)),
  );
}
