import { atLeast, atMost, compare, Decimal, sumOf, ZERO } from "./figures.js";
import { itemNamed } from "./lots.js";
import type { AskedItem, PrintedPlan, PrintedPurchase } from "./printed.js";

const COIN = "0.0001";

/** What is bought: whole order units, within least and most, when it is delivered, and what they and deliveries cost. */
export function buyingFaults(plan: PrintedPlan): string[] {
  return [
    ...plan.asked.items.flatMap((item) => itemFaults(item, plan)),
    ...plan.services.flatMap(({ name }) => orderFaults(name, plan)),
  ];
}

function itemFaults({ item: name, buying }: AskedItem, { purchases, transfers }: PrintedPlan): string[] {
  const own = purchases.filter(({ item }) => item === name);
  const units = sumOf(own, (purchase) => purchase.units);
  const what = `bought of ${name}`;
  if (buying === null) return units.isZero() ? [] : [`${what}: ${units}, though buying is off`];
  const [first] = own;
  const each = first === undefined ? ZERO : new Decimal(first.weight).div(first.units);
  const booked = transfers.filter(({ from, to }) => from === "supplier" && to === `item:${name}`);
  return [
    ...own
      .filter((purchase) => !Number.isInteger(purchase.units) || purchase.units <= 0)
      .map((purchase) => `${what}: ${purchase.units} is no order`),
    ...own.flatMap((purchase) =>
      compare(`${what} weight`, purchase.weight, each.times(purchase.units), COIN),
    ),
    ...own
      .filter(({ service }) => !buying.deliveries.includes(service))
      .map(({ service }) => `${what}: is not delivered for ${service}`),
    ...atLeast(what, units, buying.least),
    ...atMost(what, units, buying.most),
    ...[...new Set(own.map(({ service }) => service))].flatMap((service) => {
      const here = own.filter((purchase) => purchase.service === service);
      const count = sumOf(here, (purchase) => purchase.units);
      const price = buying.prices.findLast(({ from }) => count.greaterThanOrEqualTo(from))?.price ?? 0;
      return compare(
        `${what} for ${service}, cost`,
        sumOf(here, ({ cost }) => cost).toString(),
        count.times(price),
      );
    }),
    ...compare(
      `${what} weight as booked`,
      sumOf(booked, ({ weight }) => weight).toString(),
      sumOf(own, ({ weight }) => weight),
    ),
    ...compare(
      `${what} cost as booked`,
      sumOf(booked, ({ money }) => money).toString(),
      sumOf(own, ({ cost, delivery }) => new Decimal(cost).plus(delivery ?? 0)),
    ),
  ];
}

/** An order comes to its supplier's least, and its delivery is charged once, shared by what the goods cost. */
function orderFaults(service: string, plan: PrintedPlan): string[] {
  const here = plan.purchases.filter((purchase) => purchase.service === service);
  const supplierOf = ({ item }: PrintedPurchase): string | null => itemNamed(item, plan)?.supplier ?? null;
  const charged = ({ delivery }: PrintedPurchase): string => delivery ?? "0";
  return [
    ...here
      .filter(
        (purchase) =>
          purchase.delivery !== undefined &&
          !plan.asked.suppliers.some(({ supplier }) => supplier === supplierOf(purchase)),
      )
      .map(({ item }) => `delivery of ${item} for ${service}: nobody charges it`),
    ...plan.asked.suppliers.flatMap(({ supplier, minimum, delivery }) => {
      const order = here.filter((purchase) => supplierOf(purchase) === supplier);
      if (order.length === 0) return [];
      const goods = sumOf(order, ({ cost }) => cost);
      const what = `delivery of ${supplier} for ${service}`;
      return [
        ...atLeast(`order from ${supplier} for ${service}`, goods, minimum),
        ...compare(what, sumOf(order, charged).toString(), new Decimal(delivery)),
        ...(goods.isZero()
          ? []
          : order.flatMap((purchase) =>
              compare(
                `${what}, share of ${purchase.item}`,
                charged(purchase),
                new Decimal(delivery).times(purchase.cost).div(goods),
                COIN,
              ),
            )),
      ];
    }),
  ];
}
