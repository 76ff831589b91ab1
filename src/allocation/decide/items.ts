import {
  type Breakdown,
  type Cut,
  type Item,
  type ItemEnd,
  type Purchase,
  priceAt,
  type Scenario,
  withDelivery,
} from "../../kitchen/index.js";
import {
  larger,
  minus,
  NO_MONEY,
  NO_WEIGHT,
  plus,
  smaller,
  splitByShares,
  times,
  total,
  type Weight,
} from "../../quantity/index.js";
import { totalWeight } from "../decision-weights.js";
import { upToStep, weightOf } from "../floats.js";
import type { PlanModel } from "../formulate/index.js";

export interface ItemDecisions {
  readonly purchases: readonly Purchase[];
  readonly cuts: readonly Cut[];
  readonly binned: readonly ItemEnd[];
  readonly keptItems: readonly ItemEnd[];
}

/** Purchases, cuts and what becomes of whole items, in whole units or, for loose items, in the scale's steps. */
export function decideItems(plan: PlanModel, point: readonly number[]): ItemDecisions {
  const decided = plan.scenario.items.map((item) => decideItem(item, plan, point));
  return {
    purchases: withDelivery(
      decided.flatMap(({ purchases }) => purchases),
      plan.scenario,
    ),
    cuts: decided.flatMap(({ cuts }) => cuts),
    binned: decided.flatMap(({ binned }) => binned),
    keptItems: decided.flatMap(({ keptItems }) => keptItems),
  };
}

function decideItem(item: Item, { scenario, handles }: PlanModel, point: readonly number[]): ItemDecisions {
  const at = (variable: number): number => point[variable] ?? 0;
  const purchases = handles.buys
    .filter((buy) => buy.item === item && Math.round(at(buy.variable)) > 0)
    .map((buy) => purchaseOf(item, buy.service, Math.round(at(buy.variable))));
  const cuts: Cut[] = [];
  const binned: ItemEnd[] = [];
  const keptItems: ItemEnd[] = [];
  let stock = NO_WEIGHT;
  // Cuts of a loose item are rounded up as far as what is still to be cut and has not come in yet leaves room.
  const proposed = [
    ...handles.cuts.filter((cut) => cut.item === item),
    ...handles.bins.filter((bin) => bin.item === item),
  ].map(({ service, variable }) => ({ service, weight: weightOf(at(variable)) }));
  const reservedAfter = (service: number, done: number): Weight => {
    const later = proposed.filter(
      (entry, index) => entry.service > service || (entry.service === service && index > done),
    );
    const coming = purchases.filter((buy) => buy.service > service).map(({ weight }) => weight);
    return larger(NO_WEIGHT, minus(totalWeight(later), total(coming)));
  };
  const take = (units: number, reserved = NO_WEIGHT): { units: number | null; weight: Weight } => {
    const whole = item.measure === "whole";
    const exact = weightOf(units);
    const room = larger(minus(stock, reserved), smaller(stock, exact));
    const wanted = whole
      ? times(item.unitWeight, Math.round(units))
      : smaller(room, upToStep(exact, scenario.scaleStep));
    stock = minus(stock, wanted);
    return { units: whole ? Math.round(units) : null, weight: wanted };
  };
  scenario.services.forEach((_, service) => {
    if (service === 0) stock = plus(stock, totalWeight(item.onHand));
    stock = plus(stock, totalWeight(purchases.filter((buy) => buy.service === service)));
    handles.cuts
      .filter((cut) => cut.item === item)
      .forEach((cut, index) => {
        if (cut.service !== service) return;
        const taken = take(at(cut.variable), reservedAfter(service, index));
        if (taken.weight > NO_WEIGHT) cuts.push(cutOf(item, cut.breakdown, service, taken));
      });
    for (const bin of handles.bins) {
      if (bin.item !== item || bin.service !== service) continue;
      const taken = take(at(bin.variable));
      if (taken.weight > NO_WEIGHT) binned.push({ item: item.name, service, ...taken });
    }
  });
  const last = scenario.services.length - 1;
  const stays = handles.stockItems.filter((entry) => entry.item === item);
  for (const keep of [...handles.keptItems.filter((entry) => entry.item === item), ...stays]) {
    const taken = take(at(keep.variable));
    if (taken.weight > NO_WEIGHT) keptItems.push({ item: item.name, service: last, ...taken });
  }
  // Rounding cuts of a loose item up leaves a little less, rounding purchases up a little more.
  if (item.measure === "loose" && stock > NO_WEIGHT) {
    (stays.length > 0 ? keptItems : binned).push({
      item: item.name,
      service: last,
      units: null,
      weight: stock,
    });
  }
  return {
    purchases,
    cuts,
    binned: gathered(binned, scenario),
    keptItems: gathered(keptItems, scenario),
  };
}

function purchaseOf(item: Item, service: number, orderUnits: number): Purchase {
  return {
    item: item.name,
    service,
    orderUnits,
    weight: times(item.orderUnit.weight, orderUnits),
    cost: times(item.buying === null ? NO_MONEY : priceAt(item.buying, orderUnits), orderUnits),
  };
}

function cutOf(
  item: Item,
  breakdown: Breakdown,
  service: number,
  { units, weight }: { units: number | null; weight: Weight },
): Cut {
  const { yields, loss } = breakdown;
  const pieces = splitByShares(weight, [...yields.map(({ fraction }) => fraction), loss]);
  return {
    item: item.name,
    breakdown: breakdown.name,
    service,
    units,
    weight,
    parts: yields.map(({ part }, index) => ({ part, weight: pieces[index] ?? NO_WEIGHT })),
    loss: pieces.at(-1) ?? NO_WEIGHT,
  };
}

function gathered(ends: readonly ItemEnd[], scenario: Scenario): ItemEnd[] {
  return scenario.services.flatMap((_, service) => {
    const here = ends.filter((end) => end.service === service);
    const first = here[0];
    if (first === undefined) return [];
    const units = first.units === null ? null : here.reduce((sum, end) => sum + (end.units ?? 0), 0);
    return [{ ...first, units, weight: totalWeight(here) }];
  });
}
