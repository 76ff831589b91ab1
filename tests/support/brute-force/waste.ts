import type { Breakdown, Item, PartClass, Scenario, Step } from "../../../src/kitchen/index.js";
import { Decimal, ONE, ZERO } from "../../../src/quantity/index.js";
import { type Draw, type Lot, lastDayOf } from "./lots.js";
import type { Group, LineNeed } from "./recipe.js";
import { wholePart } from "./whole.js";

/**
 * What counts as waste, as the referee knows it, all in grams:
 *
 *   food sent where no one eats it, food in binned items, spare portions nobody is given at their real weight
 * + what cuts lose beyond the breakdown that loses least, and what steps take off of food without need
 * + so much of peel beyond the thriftiest breakdown's as is thrown, so much of what is thrown though a step could
 *   make food of it, and so much of what is given away, as the scenario counts.
 *
 * What outlasts the plan uncut, or as it came on hand, is no waste.
 */

/** Grams of food in what is binned, cut the way that makes most of it. */
export function binnedFood(item: Item, grams: number, scenario: Scenario): number {
  if (grams === 0) return 0;
  const isFood = (part: string): boolean => classOf(part, scenario) === "food";
  return Math.max(...item.breakdowns.map((breakdown) => gramsOf(breakdown, grams, isFood)));
}

/** Grams that a cut loses beyond the same weight cut the way that loses least. */
export function lostByCut(item: Item, breakdown: Breakdown, grams: number): number {
  const least = Decimal.min(...item.breakdowns.map(({ loss }) => loss));
  return wholePart(grams, breakdown.loss.minus(least));
}

/** Grams of peel of a cut beyond what the breakdown with least peel leaves of the same weight. */
export function peelBeyond(item: Item, breakdown: Breakdown, grams: number, scenario: Scenario): number {
  const peel = (each: Breakdown): number => gramsOf(each, grams, (part) => isPeel(part, scenario));
  return peel(breakdown) - Math.min(...item.breakdowns.map(peel));
}

/** Whether weight of a lot, thrown away, is peel that cuts of its family gave. */
export function isPeelOfCuts({ part, origin }: Lot, scenario: Scenario): boolean {
  const given = scenario.items.some(({ breakdowns }) =>
    breakdowns.some(({ yields }) => yields.some((each) => each.part === part.name)),
  );
  return given && origin.startsWith("cut") && isPeel(part.name, scenario);
}

/** Whether peel of a family may go anywhere but away, so that less is thrown than was cut. */
export function hasUseForPeel(family: string, { parts, steps, dishes }: Scenario): boolean {
  const peel = parts.filter(({ item, isPeel: is }) => item === family && is);
  const taken = new Set([
    ...steps.flatMap(({ from }) => from),
    ...dishes.flatMap(({ lines }) => lines.flatMap(({ from }) => from.map(({ part }) => part))),
  ]);
  return peel.some(({ name, carry }) => carry !== null || taken.has(name));
}

/** Whether thrown weight of an inedible part could have become food by the scenario's steps. */
export function isUsable(part: string, scenario: Scenario): boolean {
  const becomesFood = (name: string, seen: readonly string[]): boolean =>
    scenario.steps.some(
      ({ from, yields }) =>
        from.includes(name) &&
        yields.some(
          (made) =>
            classOf(made.part, scenario) === "food" ||
            (!seen.includes(made.part) && becomesFood(made.part, [...seen, made.part])),
        ),
    );
  return classOf(part, scenario) === "inedible" && becomesFood(part, [part]);
}

/** Of a gram of food that a step takes: what is no food after it, and what of that another step would leave. */
export interface TakenOff {
  readonly all: number;
  readonly beyond: number;
}

/** Null for a step that takes no food, or takes nothing off. */
export function takenOffBy(step: Step, scenario: Scenario): TakenOff | null {
  const isOfFood = ({ from }: Step): boolean => from.every((part) => classOf(part, scenario) === "food");
  if (!isOfFood(step)) return null;
  // Steam is first the water that was put in.
  const off = ({ yields, loss, water }: Step): Decimal => {
    const scraps = yields.filter(({ part }) => classOf(part, scenario) !== "food");
    const lost = Decimal.max(ZERO, loss.minus(water));
    return Decimal.min(ONE, Decimal.sum(lost, ...scraps.map(({ fraction }) => fraction)));
  };
  const all = off(step);
  if (all.isZero()) return null;
  const alike = scenario.steps.filter(
    (other) =>
      isOfFood(other) &&
      other.yields[0]?.part === step.yields[0]?.part &&
      step.from.every((part) => other.from.includes(part)),
  );
  return { all: all.toNumber(), beyond: all.minus(Decimal.min(...alike.map(off))).toNumber() };
}

/**
 * For each thing that a step gives, the parts that it is and that further steps make of it, with the most grams that
 * the step must take for a gram of each: where ways of working lead to one part, the way that takes most.
 */
export function madeBy({ yields }: Step, scenario: Scenario): ReadonlyMap<string, number>[] {
  return yields.map((given) => {
    const most = new Map<string, number>();
    const waiting = [{ given: [given], taken: ONE }];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      for (const { part, fraction } of next.given) {
        if (fraction.isZero()) continue;
        const taken = next.taken.div(fraction);
        if (taken.lessThanOrEqualTo(most.get(part) ?? 0)) continue;
        most.set(part, taken.toNumber());
        const further = scenario.steps.filter(({ from }) => from.includes(part));
        waiting.push(...further.map((each) => ({ given: [...each.yields], taken })));
      }
    }
    return most;
  });
}

/**
 * Whether a going of what came of a step into a line is a need to have worked some of the sources: not where the line
 * could have had each of them at that service, as much of it as it likes.
 */
export function isNeeded(
  output: Group,
  { sources, origin }: { readonly sources: readonly string[]; readonly origin: string },
  { line, cooking }: LineNeed,
  scenario: Scenario,
): boolean {
  if (output.source.leastShare.greaterThan(0)) return true;
  const day = scenario.services[cooking.service]?.day ?? 0;
  return !sources.every((name) => {
    const source = line.from.find(({ part }) => part === name);
    const last = lastDayOf(name, origin, scenario) ?? Infinity;
    return source?.mostShare.greaterThanOrEqualTo(1) && day <= last;
  });
}

/** Every choice of some of the sources of a step. */
export function choicesOf({ from }: Step): string[][] {
  let choices: string[][] = [[]];
  for (const part of from) choices = choices.flatMap((some) => [some, [...some, part]]);
  return choices.filter((some) => some.length > 0);
}

/** Grams, before any step, that a gram of a lot stands for where a destination has a limit. */
export function beforeWorking(lot: Lot, draws: readonly Draw[], scenario: Scenario): number {
  const into = draws.filter(({ outputs }) => outputs.some((output) => output.lot === lot));
  return Math.max(
    1,
    ...into.map(({ step, from }) => {
      const food = foodGiven(step, scenario).toNumber();
      return beforeWorking(from, draws, scenario) * (food === 0 ? 1 : Math.max(1, 1 / food));
    }),
  );
}

function foodGiven({ yields }: Step, scenario: Scenario): Decimal {
  return yields
    .filter(({ part }) => classOf(part, scenario) === "food")
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

function classOf(part: string, { parts }: Scenario): PartClass | undefined {
  return parts.find(({ name }) => name === part)?.class;
}

function isPeel(part: string, { parts }: Scenario): boolean {
  return parts.find(({ name }) => name === part)?.isPeel === true;
}

function gramsOf(breakdown: Breakdown, grams: number, counts: (part: string) => boolean): number {
  return breakdown.yields.reduce(
    (sum, { part, fraction }) => (counts(part) ? sum + wholePart(grams, fraction) : sum),
    0,
  );
}
