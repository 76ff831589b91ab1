import {
  type Item,
  lowestPrice,
  type PriceTier,
  serviceName,
  supplierOf,
  tiersOf,
} from "../../kitchen/index.js";
import { currency, rate } from "../floats.js";
import { Sum } from "../model.js";
import type { BuildContext, BuyHandle } from "./context.js";

/**
 * Order units that terms of buying may make one delivery hold, beyond any use for them: for the lowest price, or for a
 * least order of nothing else; where costs are held and a charge is shared, as many as there may be. 0 where there are
 * no such terms.
 */
export function unitsForTerms(
  item: Item,
  { scenario, heldToCost }: Pick<BuildContext, "scenario" | "heldToCost">,
): number {
  const { buying } = item;
  if (buying === null) return 0;
  const lowest = lowestPrice(buying);
  const { minimum = 0n, delivery = 0n } = supplierOf(item, scenario) ?? {};
  if (delivery > 0n && heldToCost.size > 0 && buying.most !== null) return buying.most;
  const forMinimum = lowest === 0n ? 0 : Number((minimum + lowest - 1n) / lowest);
  const forPrice = tiersOf(buying).slice(1).at(-1)?.least ?? 0;
  return Math.min(buying.most ?? Number.POSITIVE_INFINITY, Math.max(forPrice, forMinimum));
}

/** What of an item is bought for each of its deliveries, at which price. `mostUsed` and `held` are units of the item. */
export function addBuys(
  item: Item,
  { mostUsed, held }: { readonly mostUsed: number; readonly held: number },
  context: BuildContext,
): void {
  const { scenario, builder, handles } = context;
  const { buying } = item;
  if (buying === null) return;
  const size = rate(item.orderUnit.size);
  const forTerms = unitsForTerms(item, context);
  const useful = Math.max(buying.least, forTerms, Math.ceil(mostUsed / size - 1e-9));
  const upper = Math.min(buying.most ?? Number.POSITIVE_INFINITY, useful);
  // With one unit to the order unit, whole cuts make whole purchases by themselves.
  const wholeByItself =
    item.measure === "whole" &&
    size === 1 &&
    Number.isInteger(held) &&
    buying.deliveries.length === 1 &&
    forTerms === 0;
  const bought = new Sum();
  for (const service of buying.deliveries) {
    const tag = { family: "buy", item: item.name, service };
    const name = `buy ${item.name} for ${serviceName(scenario, service)}`;
    const variable = builder.variable(tag, name, upper, { integer: !wholeByItself });
    const tiers = tiersOf({ ...buying, most: upper });
    const byPrice =
      tiers.length < 2
        ? [{ variable, price: currency(buying.price), isReached: null }]
        : addTiers({ item, service, variable, name, upper }, tiers, context);
    handles.buys.push({ item, service, variable, byPrice });
    bought.add(variable, 1);
  }
  if (buying.least > 0 || (buying.most !== null && buying.deliveries.length > 1)) {
    builder.row({ family: "buying", item: item.name }, `order of ${item.name}`, bought, {
      lower: buying.least,
      upper: buying.most ?? Number.POSITIVE_INFINITY,
    });
  }
}

/** All units of a delivery are at the one price that their number has. */
function addTiers(
  { item, service, variable, name, upper }: Omit<BuyHandle, "byPrice"> & { name: string; upper: number },
  tiers: readonly PriceTier[],
  { builder }: BuildContext,
): BuyHandle["byPrice"] {
  const tag = { family: "price break", item: item.name, service };
  const all = new Sum().add(variable, -1);
  const few = { most: tiers[0]?.most ?? upper, sum: new Sum() };
  const byPrice = tiers.map(({ least, most, price }, index) => {
    const range = `${name} from ${least}`;
    const units = builder.variable(tag, range, most ?? upper);
    all.add(units, 1);
    const bought = { variable: units, price: currency(price) };
    if (index === 0) {
      few.sum.add(units, 1);
      return { ...bought, isReached: null };
    }
    const isReached = builder.variable(tag, `${range}, reached`, 1, { integer: true });
    few.sum.add(isReached, few.most);
    builder.row(tag, `${range}, at least`, new Sum().add(units, 1).add(isReached, -least), { lower: 0 });
    builder.row(tag, `${range}, at most`, new Sum().add(units, 1).add(isReached, -(most ?? upper)), {
      upper: 0,
    });
    return { ...bought, isReached };
  });
  builder.row(tag, `${name}, below any break`, few.sum, { upper: few.most });
  builder.row(tag, `${name}, by price`, all, { lower: 0, upper: 0 });
  return byPrice;
}

/** For each delivery of a supplier with terms, whether anything is ordered: then the least order, and the charge. */
export function addOrders({ scenario, builder, handles }: BuildContext): void {
  for (const { name: supplier, minimum, delivery } of scenario.suppliers ?? []) {
    if (minimum === 0n && delivery === 0n) continue;
    scenario.services.forEach((_, service) => {
      const buys = handles.buys.filter((buy) => buy.item.supplier === supplier && buy.service === service);
      if (buys.length === 0) return;
      const tag = { family: "order", supplier, service };
      const name = `order from ${supplier} for ${serviceName(scenario, service)}`;
      const isMade = builder.variable(tag, name, 1, { integer: true });
      const units = new Sum().add(isMade, -1);
      const goods = new Sum().add(isMade, -currency(minimum));
      for (const { item, variable, byPrice } of buys) {
        units.add(variable, 1);
        for (const { variable: some, price } of byPrice) goods.add(some, price);
        const only = new Sum().add(variable, 1).add(isMade, -builder.upperOf(variable));
        builder.row(tag, `${name}, with ${item.name}`, only, { upper: 0 });
      }
      builder.row(tag, `${name}, of anything`, units, { lower: 0 });
      if (minimum > 0n)
        builder.row({ ...tag, family: "minimum order" }, `${name}, its least`, goods, { lower: 0 });
      if (delivery > 0n)
        handles.charges.push({ supplier, service, variable: isMade, charge: currency(delivery) });
    });
  }
}

/** What is paid for goods and deliveries, in currency units. */
export function purchaseCost({ handles }: BuildContext): Sum {
  const sum = new Sum();
  for (const { byPrice } of handles.buys) for (const { variable, price } of byPrice) sum.add(variable, price);
  for (const { variable, charge } of handles.charges) sum.add(variable, charge);
  return sum;
}
