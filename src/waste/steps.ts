import type { LotOrigin, PartClass, RecipeLine, Scenario, Step, Yield } from "../kitchen/index.js";
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
  if (!step.from.every((part) => classOf(part) === "food")) return null;
  const all = notFoodAfter(step, classOf);
  if (all.isZero()) return null;
  const least = steps
    .filter((other) => isForTheSame(step, other))
    .map((other) => notFoodAfter(other, classOf))
    .reduce((found, each) => (each.lt(found) ? each : found), all);
  return { all, beyond: all.minus(least) };
}

function notFoodAfter(step: Step, classOf: ClassOf): Decimal {
  return Decimal.max(ZERO, ONE.minus(foodGiven(step, classOf)));
}

function foodGiven({ yields }: Step, classOf: ClassOf): Decimal {
  return yields
    .filter(({ part }) => classOf(part) === "food")
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

function isForTheSame(step: Step, other: Step): boolean {
  return (
    other.yields[0]?.part === step.yields[0]?.part && other.from.some((part) => step.from.includes(part))
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
 * Whether a line that is given what comes of a step could have had what the step was worked on as it was: it takes
 * each part that the step takes, without a share that stands against it, and while that keeps.
 */
export function takesAsItIs({ line, service, part, origin }: Given, step: Step, scenario: Scenario): boolean {
  const worked = line.from.find((source) => source.part === part);
  if (worked?.leastShare.gt(ZERO)) return false;
  const there = partsOfOrigin(scenario, origin);
  const sources = step.from.filter((source) => there.has(source));
  return (
    sources.length > 0 &&
    sources.every((source) => {
      const taken = line.from.find((each) => each.part === source);
      if (taken === undefined || taken.mostShare.lt(ONE)) return false;
      const lastDay = lastDayOfLot({ part: source, origin }, scenario);
      return lastDay === null || (scenario.services[service]?.day ?? 0) <= lastDay;
    })
  );
}

/** The parts that cutting, or an entry of the stock, and further steps can give. */
function partsOfOrigin({ items, partsOnHand, steps }: Scenario, origin: LotOrigin): ReadonlySet<string> {
  const given =
    origin.kind === "cut"
      ? items.flatMap(({ breakdowns }) => breakdowns.flatMap(({ yields }) => yields.map(({ part }) => part)))
      : partsOnHand.slice(origin.index, origin.index + 1).map(({ part }) => part);
  const parts = new Set(given);
  for (const part of parts) {
    for (const { from, yields } of steps)
      if (from.includes(part)) for (const made of yields) parts.add(made.part);
  }
  return parts;
}
