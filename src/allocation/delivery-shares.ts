import { type Item, lowestPrice, type Scenario, supplierOf, tiersOf } from "../kitchen/index.js";
import { currency } from "./floats.js";

/** A share is split to whole ten-thousandths, so it may be so much less than its part of the charge. */
const SPLIT = 0.0001;

/**
 * The least that an order unit bears of what its delivery is charged, in currency units: its part, by cost, of the
 * dearest order that can be made. That is known only where everything from the supplier has a most; else nothing.
 */
export function leastDeliveryShare(item: Item, scenario: Scenario): number {
  const supplier = supplierOf(item, scenario);
  if (supplier === null || supplier.delivery === 0n || item.buying === null) return 0;
  const dearest = scenario.items.reduce((sum, { supplier: name, buying }) => {
    if (name !== supplier.name || buying === null) return sum;
    return sum + dearestOrder(buying);
  }, 0);
  const charge = Math.max(0, currency(supplier.delivery) - SPLIT);
  return dearest > 0 ? (charge * currency(lowestPrice(item.buying))) / dearest : 0;
}

/** The most that one order of an item can cost; Infinity where it has no most. */
function dearestOrder(buying: NonNullable<Item["buying"]>): number {
  const costs = tiersOf(buying).map(
    ({ most, price }) => currency(price) * (most ?? Number.POSITIVE_INFINITY),
  );
  return Math.max(0, ...costs.filter((cost) => !Number.isNaN(cost)));
}
