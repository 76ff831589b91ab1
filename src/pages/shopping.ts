import type { Plan } from "../contract/index.js";
import { type Buying, type Item, priceAt, type StapleLine } from "../kitchen/index.js";
import {
  Decimal,
  grams,
  type Money,
  NO_MONEY,
  ONE,
  plus,
  scale,
  total,
  type Weight,
} from "../quantity/index.js";
import type { PageMaker } from "./page.js";
import type { View } from "./view.js";
import { coins, counted, once } from "./writing.js";

type Shopping = {
  readonly deliveries: readonly Delivery[];
  readonly spent: string;
  readonly taxNote: string;
  readonly onHand: readonly { readonly name: string; readonly amount: string; readonly useBy: string }[];
  readonly staples: readonly { readonly name: string; readonly amount: string; readonly dishes: string }[];
};

type Delivery = {
  readonly supplier: string;
  readonly day: string;
  readonly before: string;
  readonly taxColumn: readonly string[];
  readonly lines: readonly OrderLine[];
  readonly weight: string;
  readonly tax: readonly string[];
  /** What the delivery is charged, where it is. */
  readonly delivery: readonly string[];
  readonly minimum: string;
  readonly cost: string;
};

type OrderLine = {
  readonly item: string;
  readonly form: string;
  readonly order: string;
  readonly price: string;
  readonly weight: string;
  readonly tax: readonly string[];
  readonly cost: string;
  readonly orderBy: string;
  readonly rejectIf: string;
  readonly substitute: string;
  readonly temperature: string;
};

/** What to order, from whom and for when; what the house holds already; what the store must hold. */
export const shoppingPage: PageMaker = { slug: "shopping", title: "Shopping list", data: shoppingData };

export function shoppingData(view: View): Shopping {
  const { plan, scenario, writing } = view;
  const bought = plan.purchases.map((purchase) => ({
    purchase,
    item: scenario.items.find(({ name }) => name === purchase.item),
  }));
  const charged = chargesOf(bought);
  const costs = coins(
    [...plan.purchases.map(({ cost }) => cost), ...charged.map(({ charge }) => charge)],
    scenario,
  );
  const orders = bought.map((order, index) => ({ ...order, cost: costs[index] ?? NO_MONEY }));
  const charges = charged.map((order, index) => ({
    ...order,
    charge: costs[bought.length + index] ?? NO_MONEY,
  }));
  const suppliers = once(orders.map(({ item }) => item?.supplier ?? ""));
  const deliveries = suppliers.flatMap((supplier) =>
    scenario.services.flatMap((service): Delivery[] => {
      const here = orders.filter(
        ({ item, purchase }) => (item?.supplier ?? "") === supplier && purchase.service === service.name,
      );
      if (here.length === 0) return [];
      const taxed = here.some(({ item }) => (item?.buying?.taxRate ?? null) !== null);
      const taxes = coins(
        here.map(({ item, cost }) => taxOn(cost, item, scenario.pricesIncludeTax)),
        scenario,
      );
      const goods = total(here.map(({ cost }) => cost));
      const { charge = NO_MONEY } =
        charges.find((order) => order.supplier === supplier && order.service === service.name) ?? {};
      const { minimum = NO_MONEY } = scenario.suppliers?.find(({ name }) => name === supplier) ?? {};
      return [
        {
          supplier: supplier === "" ? "Supplier not stated" : supplier,
          day: writing.date(service.date),
          before: service.name,
          taxColumn: taxed ? ["Tax"] : [],
          lines: here.map((order, index) => orderLine(order, taxes[index] ?? NO_MONEY, taxed, view)),
          weight: writing.shown(total(here.map(({ purchase }) => purchase.weight))),
          tax: taxed ? [writing.money(total(taxes))] : [],
          delivery: charge === NO_MONEY ? [] : [writing.money(charge)],
          minimum:
            minimum === NO_MONEY
              ? ""
              : `Least order ${writing.money(minimum)}; goods here ${writing.money(goods)}`,
          cost: writing.money(plus(goods, charge)),
        },
      ];
    }),
  );
  return {
    deliveries,
    spent: writing.money(total(costs)),
    taxNote: scenario.pricesIncludeTax ? "Prices carry tax." : "Prices are without tax.",
    onHand: plan.onHand.map(({ name, weight, useBy }) => ({
      name,
      amount: writing.weight(weight),
      useBy: useBy === null ? "" : writing.shortDate(useBy),
    })),
    staples: staplesNeeded(view),
  };
}

interface Charge {
  readonly supplier: string;
  readonly service: string;
  readonly charge: Money;
}

/** What each delivery of a supplier is charged in all. */
function chargesOf(orders: readonly Omit<Order, "cost">[]): Charge[] {
  const charges = new Map<string, Charge>();
  for (const { purchase, item } of orders) {
    if (purchase.delivery === undefined) continue;
    const { service } = purchase;
    const supplier = item?.supplier ?? "";
    const key = JSON.stringify([supplier, service]);
    const before = charges.get(key)?.charge ?? NO_MONEY;
    charges.set(key, { supplier, service, charge: plus(before, purchase.delivery) });
  }
  return [...charges.values()];
}

/** "€0.95 a head from 24 on", or "€1.10 a head; €0.95 from 24 on" where fewer are bought. */
function priceText(buying: Buying, units: number, orderUnit: string, writing: View["writing"]): string {
  const reached = buying.breaks?.findLast(({ from }) => from <= units);
  const next = buying.breaks?.find(({ from }) => from > units);
  const paid = `${writing.price(priceAt(buying, units))} a ${orderUnit}`;
  const since = reached === undefined ? "" : ` from ${writing.count(reached.from)} on`;
  return next === undefined
    ? `${paid}${since}`
    : `${paid}${since}; ${writing.price(next.price)} from ${writing.count(next.from)} on`;
}

interface Order {
  readonly purchase: Plan["purchases"][number];
  readonly item: Item | undefined;
  readonly cost: Money;
}

function orderLine(
  { purchase, item, cost }: Order,
  tax: Money,
  taxed: boolean,
  { writing }: View,
): OrderLine {
  const cold = item !== undefined && item.handling !== "plant";
  return {
    item: purchase.item,
    form: [purchase.form, item?.grade ?? ""].filter((text) => text !== "").join(", "),
    order: counted(writing, purchase.units, purchase.orderUnit),
    price:
      item?.buying === null || item === undefined
        ? ""
        : priceText(item.buying, purchase.units, purchase.orderUnit, writing),
    weight: writing.shown(purchase.weight),
    tax: taxed ? [writing.money(tax)] : [],
    cost: writing.money(cost),
    orderBy: item?.buying?.orderBy ?? "",
    rejectIf: item?.rejectIf ?? "",
    substitute: item?.substitute ?? "",
    temperature: cold ? "Temperature on arrival" : "",
  };
}

/** The tax in a price that carries it, or on top of one that does not. */
function taxOn(cost: Money, item: Item | undefined, included: boolean): Money {
  const rate = item?.buying?.taxRate ?? null;
  if (rate === null) return NO_MONEY;
  return scale(cost, included ? rate.div(ONE.plus(rate)) : rate);
}

/** Staples with an amount, summed over all cookings; those with a flat cost have nothing to weigh. */
function staplesNeeded({ plan, scenario, writing }: View): Shopping["staples"] {
  const needs = new Map<
    string,
    { unit: NonNullable<StapleLine["amount"]>["unit"]; amount: Decimal; dishes: string[] }
  >();
  for (const { dish: name, portions } of plan.dishes)
    for (const staple of scenario.dishes.find((each) => each.name === name)?.staples ?? []) {
      if (staple.amount === null) continue;
      const { unit, value } = staple.amount;
      const key = JSON.stringify([staple.name, unit]);
      const need = needs.get(key) ?? { unit, amount: new Decimal(0), dishes: [] };
      needs.set(key, {
        unit,
        amount: need.amount.plus(value.times(portions)),
        dishes: [...need.dishes, name],
      });
    }
  return [...needs].map(([key, { unit, amount, dishes }]) => {
    const [name = ""] = JSON.parse(key) as string[];
    return { name, amount: stapleAmount(amount, unit, { writing }), dishes: once(dishes).join(", ") };
  });
}

/** "1,200 g", "300 mL", "24 each". */
export function stapleAmount(amount: Decimal, unit: string, { writing }: Pick<View, "writing">): string {
  if (unit === "g") return writing.weight(weightOf(amount));
  return `${writing.decimal(amount, 1)}\u00a0${unit}`;
}

function weightOf(amount: Decimal): Weight {
  return grams(amount);
}
