import type { Breakdown, Item, Lot, LotOrigin, Part, Scenario } from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import { Sum } from "../builder.js";
import { costWhenCut, trimCreditOf } from "../costs.js";
import { currency, kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import type { BuildContext } from "./context.js";

/** What cuts of an item cost above so much a kilogram of what they give, at what a unit costs. */
export interface CostsAbove {
  readonly item: Item;
  readonly givings: readonly Giving[];
  readonly above: (perUnit: number) => Sum;
}

/** A cut with the kilograms in a unit of what bears the cost. */
interface Giving {
  readonly item: Item;
  readonly breakdown: Breakdown;
  readonly variable: number;
  readonly weight: number;
}

type Parts = ReadonlyMap<string, Part>;
type CutOrigin = Extract<LotOrigin, { kind: "cut" }>;

/** For each item that gives a part cut for a service: what that costs above so much a kilogram. */
export function costsAbove(
  { part, origin }: { readonly part: string; readonly origin: CutOrigin },
  most: number,
  context: BuildContext,
): CostsAbove[] {
  const { scenario } = context;
  const parts: Parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  const byItem = [...groupBy(givingsOf(part, origin, context), ({ item }) => item).entries()];
  return byItem.map(([item, givings]) => {
    if (byItem.length === 1 && bearsTheRest(item, part, parts, scenario))
      return restAbove(item, most, parts, context);
    const above = (perUnit: number): Sum =>
      givings.reduce((all, { breakdown, variable, weight }) => {
        const cost = costWhenCut(item, breakdown, part, { perUnit, scenario });
        return all.add(variable, weight * (cost - most));
      }, new Sum());
    return { item, givings, above };
  });
}

function givingsOf(part: string, { service }: CutOrigin, { handles }: BuildContext): Giving[] {
  return handles.cuts.flatMap(({ item, breakdown: name, service: cutFor, variable }) => {
    const breakdown = item.breakdowns.find((entry) => entry.name === name);
    const given = breakdown?.yields.find((entry) => entry.part === part);
    if (cutFor !== service || breakdown === undefined || given === undefined) return [];
    return [{ item, breakdown, variable, weight: rate(given.fraction) * kg(item.unitWeight) }];
  });
}

/** Whether a part bears, by trim credit, what is left of the item's cost when its by-products are credited. */
function bearsTheRest({ breakdowns }: Item, part: string, parts: Parts, { costing }: Scenario): boolean {
  return (
    costing === "trim credit" &&
    isMain(part, parts) &&
    breakdowns.every(({ yields }) => yields.some((given) => isMain(given.part, parts)))
  );
}

function isMain(part: string, parts: Parts): boolean {
  const kind = parts.get(part);
  return kind?.class === "food" && kind.marketValue === null;
}

/** By trim credit, all cuts of an item together bear what its by-products are not credited with. */
function restAbove(item: Item, most: number, parts: Parts, context: BuildContext): CostsAbove {
  const unit = kg(item.unitWeight);
  const givings = context.handles.cuts.flatMap(({ item: cut, breakdown: name, variable }): Giving[] => {
    const breakdown = cut === item ? item.breakdowns.find((entry) => entry.name === name) : undefined;
    if (breakdown === undefined) return [];
    const main = breakdown.yields.filter(({ part }) => isMain(part, parts));
    const weight = main.reduce((sum, { fraction }) => sum + rate(fraction) * unit, 0);
    return [{ item, breakdown, variable, weight }];
  });
  const lost = creditsLost(item, parts, context);
  const above = (perUnit: number): Sum =>
    givings
      .reduce((all, { breakdown, variable, weight }) => {
        const credit = trimCreditOf(breakdown, parts) * unit;
        return all.add(variable, perUnit - credit - most * weight);
      }, new Sum())
      .addSum(lost);
  return { item, givings, above };
}

/**
 * Credits that an item's by-products do not earn, as they are wasted. One that comes some other way too is taken to
 * be used: which of it was wasted, no row can say.
 */
function creditsLost(item: Item, parts: Parts, { scenario, handles }: BuildContext): Sum {
  const given = (each: Item): string[] =>
    each.breakdowns.flatMap(({ yields }) => yields.map(({ part }) => part));
  const own = new Set(given(item));
  for (const made of scenario.steps.flatMap(({ yields }) => yields)) own.delete(made.part);
  for (const part of scenario.items.filter((other) => other !== item).flatMap(given)) own.delete(part);
  const credit = ({ part, origin }: Lot): number =>
    origin.kind === "cut" && own.has(part) ? currency(parts.get(part)?.marketValue ?? NO_MONEY) : 0;
  const lost = new Sum();
  for (const { lot, variable } of handles.wastes) lost.add(variable, credit(lot));
  for (const { lot, sum } of handles.thrown) lost.addSum(sum, credit(lot));
  return lost;
}

/**
 * At most what the cuts of a lot bear of what deliveries of their item are charged: no more than the part bears of any
 * cut, of the charge less what the other goods of the delivery bear of it in the dearest order there can be.
 */
export function chargesOf(
  item: Item,
  givings: readonly Giving[],
  part: string,
  { scenario, handles, builder }: BuildContext,
): Sum {
  const borne = givings.map(({ breakdown, weight }) =>
    scenario.costing === "trim credit"
      ? 1
      : weight * costWhenCut(item, breakdown, part, { perUnit: 1, scenario }),
  );
  const most = Math.max(0, ...borne);
  const sum = new Sum();
  for (const { supplier, service, variable, charge } of handles.charges) {
    if (supplier !== item.supplier) continue;
    const order = handles.buys.filter((buy) => buy.item.supplier === supplier && buy.service === service);
    const dearest = order.reduce((goods, { byPrice }) => {
      const costs = byPrice.map((bought) => bought.price * builder.upperOf(bought.variable));
      return goods + Math.max(0, ...costs);
    }, 0);
    sum.add(variable, charge * most);
    for (const { byPrice } of order.filter((buy) => buy.item !== item && dearest > 0))
      for (const bought of byPrice) sum.add(bought.variable, (-charge * most * bought.price) / dearest);
  }
  return sum;
}
