import { type Item, lowestPrice, type Scenario, supplierOf, tiersOf } from "../kitchen/index.js";
import { currency } from "./floats.js";

/** Least and most that an order unit can bear of what its delivery is charged, in currency units. */
export interface DeliveryShare {
  readonly least: number;
  readonly most: number;
}

/** A share is split to whole ten-thousandths, so it may be so much less than its part of the charge. */
const SPLIT = 0.0001;

/**
 * The charge is shared by cost. At least a unit bears its part of the dearest order that can be made, which is known
 * only where everything from the supplier has a most; at most its part of an order of it alone, or of the least order.
 */
export function deliveryShare(item: Item, scenario: Scenario): DeliveryShare {
  const supplier = supplierOf(item, scenario);
  const { buying } = item;
  if (supplier === null || supplier.delivery === 0n || buying === null) return { least: 0, most: 0 };
  const charge = currency(supplier.delivery);
  const dearest = scenario.items.reduce((sum, other) => {
    if (other.supplier !== item.supplier || other.buying === null) return sum;
    return sum + dearestOrder(other.buying);
  }, 0);
  const price = currency(buying.price);
  const lowest = currency(lowestPrice(buying));
  return {
    least: dearest > 0 ? (Math.max(0, charge - SPLIT) * lowest) / dearest : 0,
    most: price === 0 ? charge : (charge * price) / Math.max(price, currency(supplier.minimum)),
  };
}

/** The most that one order of an item can cost; Infinity where it has no most. */
function dearestOrder(buying: NonNullable<Item["buying"]>): number {
  return Math.max(
    0,
    ...tiersOf(buying).map(({ most, price }) => currency(price) * (most ?? Number.POSITIVE_INFINITY)),
  );
}
