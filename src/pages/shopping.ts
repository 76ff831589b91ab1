import type { PlanJson } from "../contract/index.js";
import type { Item, StapleLine } from "../kitchen/index.js";
import { Decimal, type Money, money, NO_MONEY, ONE, scale, total, type Weight } from "../quantity/index.js";
import type { PageMaker } from "./page.js";
import { planWeight, type View } from "./view.js";
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
  const costs = coins(
    plan.purchases.map(({ cost }) => money(cost)),
    scenario,
  );
  const orders = plan.purchases.map((purchase, index) => ({
    purchase,
    item: scenario.items.find(({ name }) => name === purchase.item),
    cost: costs[index] ?? NO_MONEY,
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
      return [
        {
          supplier: supplier === "" ? "Supplier not stated" : supplier,
          day: writing.date(service.date),
          before: service.name,
          taxColumn: taxed ? ["Tax"] : [],
          lines: here.map((order, index) => orderLine(order, taxes[index] ?? NO_MONEY, taxed, view)),
          weight: writing.shown(total(here.map(({ purchase }) => planWeight(purchase.weight)))),
          tax: taxed ? [writing.money(total(taxes))] : [],
          cost: writing.money(total(here.map(({ cost }) => cost))),
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
      amount: writing.weight(planWeight(weight)),
      useBy: useBy === null ? "" : writing.shortDate(useBy),
    })),
    staples: staplesNeeded(view),
  };
}

interface Order {
  readonly purchase: PlanJson["purchases"][number];
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
        : `${writing.price(item.buying.price)} a ${purchase.orderUnit}`,
    weight: writing.shown(planWeight(purchase.weight)),
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
  return planWeight(amount.toFixed());
}
