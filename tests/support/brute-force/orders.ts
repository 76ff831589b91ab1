import type { Item, Scenario } from "../../../src/kitchen/index.js";
import { type ItemPlan, sum } from "./item-plans.js";
import { tenMillionths } from "./whole.js";

/** Ten-millionths that so many order units of one delivery cost, all at the price that their number has. */
export function goodsCost({ buying }: Item, orders: number): number {
  if (buying === null || orders === 0) return 0;
  let price = buying.price;
  for (const { from, price: lower } of buying.breaks ?? []) if (orders >= from) price = lower;
  return orders * tenMillionths(price);
}

/** A delivery on which something is ordered, as far as its supplier states terms. */
interface Order {
  readonly plans: readonly ItemPlan[];
  readonly service: number;
  /** Ten-millionths. */
  readonly goods: number;
  readonly minimum: number;
  readonly charge: number;
}

function ordersOf(plans: readonly ItemPlan[], scenario: Scenario): Order[] {
  return (scenario.suppliers ?? []).flatMap(({ name, minimum, delivery }) =>
    scenario.services.flatMap((_, service): Order[] => {
      const ordered = plans.filter((plan) => plan.item.supplier === name && (plan.bought[service] ?? 0) > 0);
      if (ordered.length === 0) return [];
      const goods = sum(ordered.map((plan) => goodsCost(plan.item, plan.bought[service] ?? 0)));
      return [
        {
          plans: ordered,
          service,
          goods,
          minimum: tenMillionths(minimum),
          charge: tenMillionths(delivery),
        },
      ];
    }),
  );
}

/** Ten-millionths charged for deliveries; null where an order is below its supplier's least. */
export function chargesOf(plans: readonly ItemPlan[], scenario: Scenario): number | null {
  const orders = ordersOf(plans, scenario);
  if (orders.some(({ goods, minimum }) => goods < minimum)) return null;
  return sum(orders.map(({ charge }) => charge));
}

/** Ten-millionths, not rounded, that an item bears of what deliveries are charged: by cost, else by weight. */
export function borneBy(plan: ItemPlan, plans: readonly ItemPlan[], scenario: Scenario): number {
  return sum(
    ordersOf(plans, scenario).map(({ plans: ordered, service, goods, charge }) => {
      if (!ordered.includes(plan)) return 0;
      const weightOf = ({ item, bought }: ItemPlan): number =>
        (bought[service] ?? 0) * Number(item.orderUnit.weight);
      return goods === 0
        ? (charge * weightOf(plan)) / sum(ordered.map(weightOf))
        : (charge * goodsCost(plan.item, plan.bought[service] ?? 0)) / goods;
    }),
  );
}
