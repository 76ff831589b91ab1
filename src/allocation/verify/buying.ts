import type { Decision, Item, Purchase, Scenario } from "../../kitchen/index.js";
import { type Money, minus, NO_MONEY, times, toCurrency, total } from "../../quantity/index.js";

/**
 * What is bought is bought where it is delivered, within its least and most, at the price that the number in one
 * delivery has; every delivery comes to its supplier's least order and is charged once.
 */
export function buyingFaults(decision: Decision, scenario: Scenario): string[] {
  return [
    ...scenario.items.flatMap((item) => itemFaults(item, decision)),
    ...scenario.services.flatMap((_, service) => orderFaults(service, decision, scenario)),
  ];
}

function itemFaults({ name, buying, orderUnit }: Item, decision: Decision): string[] {
  const purchases = decision.purchases.filter(({ item }) => item === name);
  const bought = purchases.reduce((sum, { orderUnits }) => sum + orderUnits, 0);
  if (buying === null) return bought === 0 ? [] : [`${name}: ${bought} bought where buying is off`];
  const services = [...new Set(purchases.map(({ service }) => service))];
  const faults = purchases.flatMap(({ orderUnits, weight }) => {
    if (!Number.isInteger(orderUnits) || orderUnits <= 0) return [`${name}: ${orderUnits} is no order`];
    return weight === times(orderUnit.weight, orderUnits)
      ? []
      : [`${name}: its weight is not ${orderUnits} times its order unit`];
  });
  if (faults.length > 0) return faults;
  const paidFaults = services.flatMap((service) => {
    const here = purchases.filter((purchase) => purchase.service === service);
    const units = here.reduce((sum, { orderUnits }) => sum + orderUnits, 0);
    const paid = total(here.map(({ cost }) => cost));
    let price = buying.price;
    for (const lower of buying.breaks ?? []) if (units >= lower.from) price = lower.price;
    return [
      ...(paid === times(price, units) ? [] : [`${name}: its price is not ${units} times its own`]),
      ...(buying.deliveries.includes(service) ? [] : [`${name}: bought when nothing is delivered`]),
    ];
  });
  if (bought < buying.least || bought > (buying.most ?? bought))
    paidFaults.push(`${name}: ${bought} order units bought`);
  return paidFaults;
}

function orderFaults(service: number, decision: Decision, scenario: Scenario): string[] {
  const when = `for ${scenario.services[service]?.name}`;
  const here = decision.purchases.filter((purchase) => purchase.service === service);
  const supplierOf = ({ item }: Purchase): string | null =>
    scenario.items.find(({ name }) => name === item)?.supplier ?? null;
  const stated = scenario.suppliers ?? [];
  const strays = here.filter(
    (purchase) =>
      purchase.delivery !== undefined && !stated.some(({ name }) => name === supplierOf(purchase)),
  );
  return [
    ...strays.map(({ item }) => `${item} ${when}: charged a delivery that nobody charges`),
    ...stated.flatMap(({ name, minimum, delivery }) => {
      const order = here.filter((purchase) => supplierOf(purchase) === name);
      if (order.length === 0) return [];
      const goods = total(order.map(({ cost }) => cost));
      const charged = total(order.map((purchase) => purchase.delivery ?? NO_MONEY));
      const short = minus(minimum, goods);
      return [
        ...(short > 0n ? [`${name} ${when}: ${toCurrency(short)} short of its least order`] : []),
        ...(charged === delivery
          ? []
          : [`${name} ${when}: ${toCurrency(charged)} charged for delivery, not ${toCurrency(delivery)}`]),
        ...shareFaults(order, goods, delivery, `${name} ${when}`),
      ];
    }),
  ];
}

/** Each bears the charge by its part of the goods, to a ten-thousandth that splitting without loss allows. */
function shareFaults(order: readonly Purchase[], goods: Money, charge: Money, where: string): string[] {
  if (goods === NO_MONEY) return [];
  return order.flatMap(({ item, cost, delivery = NO_MONEY }) => {
    const off = delivery * goods - charge * cost;
    return off < goods && off > -goods ? [] : [`${where}: ${item} bears another part of the charge`];
  });
}
