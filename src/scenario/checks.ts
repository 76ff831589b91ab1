import {
  type Breakdown,
  COSTING_METHODS,
  type CostingMethod,
  creditOf,
  DEFAULT_COSTING,
  type Dish,
  type Item,
  isFitFor,
  isMainPart,
  lowestPrice,
  type Service,
  type Step,
} from "../kitchen/index.js";
import { Decimal, grams, ONE, scale, times, toCurrency, toKilograms, ZERO } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import type { Parts } from "./parts.js";
import type { StepDraft } from "./steps.js";
import { words } from "./wording/index.js";

/** What the checks of a scenario as a whole look at. */
export interface Drafted {
  readonly services: readonly Service[];
  readonly items: readonly Item[];
  readonly steps: readonly StepDraft[];
  readonly parts: Parts;
  readonly dishes: readonly Dish[];
}

type Check = (context: Resolving, drafted: Drafted) => void;

const CHECKS: readonly Check[] = [
  stepsRunInNoCircle,
  keepingOutlivesThePlan,
  keepingIsValuedBelowCost,
  wasteHasAPrice,
  creditsAreStated,
  coursesHaveDishes,
  dietsHaveDishes,
  vesselsAreUsed,
  linesShowOnTheScale,
];

export function checkScenario(context: Resolving, drafted: Drafted): void {
  for (const check of CHECKS) check(context, drafted);
}

function stepsRunInNoCircle(context: Resolving, { steps }: Drafted): void {
  const made = new Map<string, string[]>();
  const reported = new Set<string>();
  for (const { step, gives, path } of steps) {
    for (const from of step.from) {
      for (const { part } of gives) {
        const way = wayBetween(made, part, from);
        if (way === null) made.set(from, [...(made.get(from) ?? []), part]);
        else if (path !== null && !reported.has(step.name)) {
          reported.add(step.name);
          context.atKey(path, words.circle([...way, part]));
        }
      }
    }
  }
}

/** The parts on a way from one to another by the steps noted so far, both ends included. */
function wayBetween(made: ReadonlyMap<string, readonly string[]>, from: string, to: string): string[] | null {
  const ways: string[][] = [[from]];
  const seen = new Set([from]);
  for (let way = ways.shift(); way !== undefined; way = ways.shift()) {
    const last = way.at(-1) ?? from;
    if (last === to) return way;
    for (const next of made.get(last) ?? []) {
      if (!seen.has(next)) ways.push([...way, next]);
      seen.add(next);
    }
  }
  return null;
}

function keepingOutlivesThePlan(context: Resolving, { items, parts }: Drafted): void {
  for (const { name, carry, keepsDays } of items) {
    if (carry !== null && keepsDays === 1) context.atKey(["items", name, "keep"], words.keepsTooShort(name));
  }
  for (const { name, carry, keepsDays } of parts.values()) {
    if (carry !== null && keepsDays === 1) context.atKey(["parts", name, "keep"], words.keepsTooShort(name));
  }
}

function keepingIsValuedBelowCost(context: Resolving, { items, steps, parts }: Drafted): void {
  const report = (path: Path, value: Decimal, cost: Decimal | null | undefined) => {
    if (cost && value.greaterThan(cost))
      context.at([...path, "keep", "value"], words.keepAboveCost(value, cost));
  };
  for (const item of items) {
    if (item.carry !== null) {
      report(["items", item.name], toCurrency(item.carry.valuePerKilogram), leastPerKilogram(item));
    }
  }
  const made: Step[] = steps.map(({ step }) => step);
  const least = leastCosts(items, made, parts, COSTING_METHODS[context.file.costing ?? DEFAULT_COSTING]);
  for (const { name, carry } of parts.values()) {
    if (carry !== null) report(["parts", name], toCurrency(carry.valuePerKilogram), least.get(name));
  }
}

function wasteHasAPrice(context: Resolving): void {
  if (context.file.aim !== "balanced" || context.file.waste_price !== undefined) return;
  if (!context.isLeftOut(["waste_price"])) context.at(["aim"], words.noWastePrice());
}

function creditsAreStated(context: Resolving, { parts }: Drafted): void {
  const { costing = DEFAULT_COSTING } = context.file;
  if (COSTING_METHODS[costing].needsValueOf === "no part") return;
  const stated = [...parts.values()].some(({ marketValue }) => marketValue !== null);
  if (!stated && !context.isLeftOut(["parts"])) context.at(["costing"], words.noCredits(costing));
}

function coursesHaveDishes(context: Resolving, { services, dishes }: Drafted): void {
  const has = (index: number, course: string | null) =>
    services[index]?.courses.some(({ name }) => name === course) ?? false;
  const misplaced = dishes.some(
    ({ course, services: at, portions }) =>
      portions === null && (at.length === 0 || !at.every((index) => has(index, course))),
  );
  if (misplaced || dishesUnsettled(context)) return;
  services.forEach((service, index) => {
    for (const { name, portions } of service.courses) {
      const offered = dishes.some((dish) => dish.course === name && dish.services.includes(index));
      if (portions > 0 && !offered) {
        context.atKey(["services", index, "courses", name], words.courseWithoutDish(name, service.name));
      }
    }
  });
}

function dietsHaveDishes(context: Resolving, { services, dishes }: Drafted): void {
  if (dishesUnsettled(context)) return;
  const known = [...new Set(dishes.flatMap(({ diets }) => diets))];
  services.forEach((service, index) => {
    const written = Object.keys(context.file.services[index]?.diets ?? {});
    service.diets.forEach((people, entry) => {
      const fit = dishes.filter((dish) => isFitFor(people, dish));
      const offered = fit.some((dish) => dish.services.includes(index));
      const unsettled = fit.some((dish) => dish.services.length === 0);
      if (people.covers === 0 || offered || unsettled) return;
      const unknown = people.diets.find((diet) => !known.includes(diet));
      const meant = unknown === undefined ? null : didYouMean(unknown, known);
      context.atKey(
        ["services", index, "diets", written[entry] ?? ""],
        words.dietWithoutDish(unknown === undefined ? people.diets : [unknown], service.name, meant),
      );
    });
  });
}

function vesselsAreUsed(context: Resolving, { dishes }: Drafted): void {
  if (dishesUnsettled(context)) return;
  const known = [...new Set(dishes.flatMap(({ batch }) => (batch === null ? [] : [batch.vessel])))];
  for (const vessel of context.namesWritten(["limits", "vessels"])) {
    if (known.includes(vessel)) continue;
    context.atKey(
      ["limits", "vessels", vessel],
      words.unusedVessel(vessel, didYouMean(vessel, known), known),
    );
  }
}

/** What the most portions take of a line is no less than the scale shows: pieces are counted, all else is weighed. */
function linesShowOnTheScale(context: Resolving, { services, dishes, parts }: Drafted): void {
  if (dishesUnsettled(context) || context.isLeftOut(["services"]) || context.isLeftOut(["scale_step"]))
    return;
  const step = context.file.scale_step ?? grams("1");
  for (const dish of dishes) {
    const portions = mostPortions(dish, services);
    const isWhole = context.file.dishes[dish.name]?.lines?.length === dish.lines.length;
    if (!isWhole || portions === 0) continue;
    dish.lines.forEach(({ most, cookingYield, from }, index) => {
      if (from.some(({ part, rate }) => parts.get(part)?.pieceWeight || rate.isZero())) return;
      if (cookingYield.isZero() || most === 0n) return;
      const least = from.reduce((rate, source) => Decimal.min(rate, source.rate), from[0]?.rate ?? ONE);
      const all = scale(times(most, portions), ONE.div(cookingYield.times(least)));
      const place = ["dishes", dish.name, "lines", index, "amount"];
      if (all < step) context.at(place, words.lessThanTheScaleShows(portions, all, step));
    });
  }
}

/** Most portions of one cooking: all that a service may ask for and its overage, and later ones where the rest keeps. */
function mostPortions(
  { course, portions, services: at, keepsDays }: Dish,
  services: readonly Service[],
): number {
  const asked = at.flatMap((index) => {
    const service = services[index];
    if (service === undefined) return [];
    const ofCourse = service.courses.find(({ name }) => name === course)?.portions;
    const eaten = Math.min(portions?.most ?? ofCourse ?? 0, ofCourse ?? portions?.most ?? 0);
    return [
      eaten +
        service.overage
          .times(ofCourse ?? portions?.most ?? 0)
          .floor()
          .toNumber(),
    ];
  });
  return keepsDays === null ? Math.max(0, ...asked) : asked.reduce((sum, each) => sum + each, 0);
}

/** Whether what some dish is, is fit for, or is offered at could not be read. */
function dishesUnsettled(context: Resolving): boolean {
  const names = context.namesWritten(["dishes"]);
  if (names.length === 0) return context.isLeftOut(["dishes"]);
  return names.some(
    (name) =>
      context.file.dishes[name] === undefined ||
      ["course", "diets", "services", "batch"].some((key) => context.isLeftOut(["dishes", name, key])),
  );
}

/**
 * The least that a kilogram of each part can cost when it is bought and cut, in currency units: the item's price
 * spread over what a breakdown gives by the costing method, and over what a step gives by food weight. Parts of
 * items that are not bought are not among them.
 */
export function leastCosts(
  items: readonly Item[],
  steps: readonly Step[],
  parts: Parts,
  costing: CostingMethod,
): ReadonlyMap<string, Decimal> {
  const least = new Map<string, Decimal>();
  const offer = (part: string, cost: Decimal): boolean => {
    const held = least.get(part);
    if (held?.lessThanOrEqualTo(cost)) return false;
    least.set(part, cost);
    return true;
  };
  for (const item of items) {
    const price = leastPerKilogram(item);
    if (price === null) continue;
    for (const breakdown of item.breakdowns) {
      for (const { part, cost } of spread(breakdown, price, parts, costing)) offer(part, cost);
    }
  }
  for (let round = 0, cheaper = true; cheaper && round <= steps.length; round += 1) {
    cheaper = false;
    for (const { from, yields } of steps) {
      const sources = from.flatMap((name) => least.get(name) ?? []);
      const food = yields
        .filter(({ part }) => parts.get(part)?.class === "food")
        .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
      if (sources.length === 0 || food.isZero()) continue;
      const cost = Decimal.min(...sources).div(food);
      for (const { part } of yields) {
        if (parts.get(part)?.class === "food") cheaper = offer(part, cost) || cheaper;
      }
    }
  }
  return least;
}

/** The least that a kilogram of an item can cost as purchased, however much is bought; null where it is not bought. */
export function leastPerKilogram({ buying, orderUnit }: Item): Decimal | null {
  return buying === null ? null : toCurrency(lowestPrice(buying)).div(toKilograms(orderUnit.weight));
}

function spread(
  { yields }: Breakdown,
  price: Decimal,
  parts: Parts,
  method: CostingMethod,
): { part: string; cost: Decimal }[] {
  const given = yields.flatMap(({ part: name, fraction }) => {
    const part = parts.get(name);
    return part === undefined || fraction.isZero() ? [] : [{ name, part, fraction }];
  });
  const sum = (terms: readonly Decimal[]) => Decimal.sum(ZERO, ...terms);
  const main = method.credits ? given.filter(({ part }) => isMainPart(part)) : [];
  if (main.length > 0) {
    const credit = sum(given.map(({ part, fraction }) => fraction.times(toCurrency(creditOf(part)))));
    const rest = Decimal.max(0, price.minus(credit)).div(sum(main.map(({ fraction }) => fraction)));
    return given.map(({ name, part }) => ({
      part: name,
      cost: isMainPart(part) ? rest : toCurrency(creditOf(part)),
    }));
  }
  const count = method.counts(given.map(({ part }) => part));
  const all = sum(given.map(({ part, fraction }) => fraction.times(toCurrency(count(part)))));
  return given.map(({ name, part }) => ({ part: name, cost: price.times(toCurrency(count(part))).div(all) }));
}
