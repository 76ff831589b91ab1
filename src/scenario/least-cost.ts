import {
  type Breakdown,
  type CostingMethod,
  creditOf,
  type Item,
  isMainPart,
  lowestPrice,
  type Step,
} from "../kitchen/index.js";
import { Decimal, toCurrency, toKilograms, ZERO } from "../quantity/index.js";
import type { Parts } from "./parts.js";

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
