import { type Money, NO_MONEY, splitByShares, total } from "../quantity/index.js";
import type { Purchase } from "./decision.js";
import type { Buying, Item, Scenario } from "./scenario.js";

/** From so many order units in one delivery, all of them are at this price. */
export interface PriceBreak {
  readonly from: number;
  readonly price: Money;
}

/** What a supplier asks for one delivery, which comes before one service. */
export interface Supplier {
  readonly name: string;
  /** Least worth of goods, where anything is ordered; 0 where any order will do. */
  readonly minimum: Money;
  /** Charged where anything is ordered. */
  readonly delivery: Money;
}

/** Order units of one delivery that are at one price: from the least to the most, both included. */
export interface PriceTier {
  readonly least: number;
  /** Null where there is no most. */
  readonly most: number | null;
  readonly price: Money;
}

/** The prices of an item by the number bought in one delivery, fewest first; those that its most keeps out of reach left out. */
export function tiersOf({ price, breaks = [], most }: Buying): PriceTier[] {
  const steps = [{ from: 1, price }, ...breaks].filter(
    ({ from }) => most === null || from <= Math.max(1, most),
  );
  return steps.map(({ from, price: each }, index) => {
    const next = steps[index + 1];
    return { least: from, most: next === undefined ? most : next.from - 1, price: each };
  });
}

/** What one order unit costs where so many are bought in one delivery. */
export function priceAt({ price, breaks = [] }: Buying, orderUnits: number): Money {
  return breaks.findLast(({ from }) => from <= orderUnits)?.price ?? price;
}

/** The least that an order unit can cost, by the most that may be bought. */
export function lowestPrice(buying: Buying): Money {
  return tiersOf(buying).at(-1)?.price ?? buying.price;
}

/** What the supplier of an item asks; null where nothing is stated. */
export function supplierOf(item: Pick<Item, "supplier">, { suppliers = [] }: Scenario): Supplier | null {
  return suppliers.find(({ name }) => name === item.supplier) ?? null;
}

/**
 * The purchases with the charges of their deliveries, each shared by cost among all that comes with it (by weight,
 * where none of it costs anything), to the last unit. What a delivery was charged before is shared anew; one that was
 * charged nothing yet is charged what its supplier asks.
 */
export function withDelivery(
  purchases: readonly Purchase[],
  scenario: Scenario,
  before: readonly Purchase[] = [],
): Purchase[] {
  const supplierAt = ({ item }: Purchase): Supplier | null => {
    const found = scenario.items.find(({ name }) => name === item);
    return found === undefined ? null : supplierOf(found, scenario);
  };
  const shares = new Map<Purchase, Money>();
  for (const supplier of scenario.suppliers ?? []) {
    for (const service of new Set(purchases.map((purchase) => purchase.service))) {
      const isOfIt = (purchase: Purchase): boolean =>
        purchase.service === service && supplierAt(purchase) === supplier;
      const here = purchases.filter(isOfIt);
      const known = before.filter(isOfIt);
      const charge =
        known.length === 0 ? supplier.delivery : total(known.map(({ delivery = NO_MONEY }) => delivery));
      if (here.length === 0 || charge === NO_MONEY) continue;
      const isFree = here.every(({ cost }) => cost === NO_MONEY);
      const pieces = splitByShares(
        charge,
        here.map(({ cost, weight }) => (isFree ? weight : cost)),
      );
      here.forEach((purchase, index) => {
        shares.set(purchase, pieces[index] ?? NO_MONEY);
      });
    }
  }
  return purchases.map((purchase) => {
    const { delivery: _, ...goods } = purchase;
    const share = shares.get(purchase) ?? NO_MONEY;
    return share === NO_MONEY ? goods : { ...goods, delivery: share };
  });
}
