import type { Decision, HappenedFile, Purchase, Scenario } from "../../kitchen/index.js";
import { NO_MONEY, plus } from "../../quantity/index.js";

/**
 * Items that can be bought before a service: those that are said to be; where nothing is said, those that are
 * delivered on that very day, but for what came short.
 */
export function buyableBefore(
  before: number,
  { purchases }: Decision,
  { items, services }: Scenario,
  { can_buy: said, delivered = {} }: HappenedFile,
): readonly string[] {
  if (said !== undefined) return said;
  const day = services[before]?.day;
  return items
    .filter(({ name, buying }) => {
      const isToday = buying?.deliveries.some((at) => at <= before && services[at]?.day === day) ?? false;
      const due = purchases.filter(({ item, service }) => item === name && service <= before);
      const planned = due.reduce((sum, { orderUnits }) => sum + orderUnits, 0);
      return isToday && (delivered[name] ?? planned) >= planned;
    })
    .map(({ name }) => name);
}

/** Purchases of one item for one service as one: what is bought on the day joins what had been ordered for it. */
export function joined(purchases: readonly Purchase[]): Purchase[] {
  const byItem = new Map<string, Purchase>();
  for (const purchase of purchases) {
    const key = JSON.stringify([purchase.item, purchase.service]);
    const known = byItem.get(key);
    byItem.set(key, known === undefined ? purchase : sumOf(known, purchase));
  }
  return [...byItem.values()];
}

function sumOf(one: Purchase, other: Purchase): Purchase {
  const delivery = plus(one.delivery ?? NO_MONEY, other.delivery ?? NO_MONEY);
  return {
    ...one,
    orderUnits: one.orderUnits + other.orderUnits,
    weight: plus(one.weight, other.weight),
    cost: plus(one.cost, other.cost),
    ...(delivery === NO_MONEY ? {} : { delivery }),
  };
}
