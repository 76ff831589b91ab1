import { type Item, type Scenario, supplierOf } from "../../kitchen/index.js";
import { minus, times } from "../../quantity/index.js";
import { type Lever, moneyText, THOUSANDTH } from "./lever.js";

/** The price of an item and how much of it may or must be bought. */
export function itemLevers(item: Item, scenario: Scenario): Lever[] {
  const { buying, orderUnit } = item;
  if (buying === null) return [];
  const withItem = (changed: Item): Scenario => ({
    ...scenario,
    items: scenario.items.map((other) => (other === item ? changed : other)),
  });
  const withBuying = (changed: Partial<typeof buying>): Scenario =>
    withItem({ ...item, buying: { ...buying, ...changed } });
  // A lower price can leave an order below its supplier's least.
  const hasMinimum = (supplierOf(item, scenario)?.minimum ?? 0n) > 0n;
  const levers: Lever[] = [
    {
      subject: `price of ${item.name}`,
      about: { item: item.name },
      step: "0.001",
      steps: Number(buying.price / (2n * THOUSANDTH)),
      eases: hasMinimum ? "nearly" : "always",
      change: (steps) => {
        const price = minus(buying.price, times(THOUSANDTH, steps));
        const breaks = buying.breaks?.filter((lower) => lower.price < price) ?? [];
        const { breaks: _, ...flat } = buying;
        const changed = { ...flat, price, ...(breaks.length === 0 ? {} : { breaks }) };
        return {
          scenario: withItem({ ...item, buying: changed }),
          value: `${moneyText(price)} / ${orderUnit.name}`,
          text: `Buy ${item.name} at ${moneyText(price)} / ${orderUnit.name} instead of ${moneyText(buying.price)}`,
        };
      },
    },
  ];
  const { most, least } = buying;
  if (most !== null) {
    levers.push({
      subject: `most ${item.name} to buy`,
      about: { item: item.name },
      step: `1 ${orderUnit.name}`,
      steps: Math.max(50, 4 * most),
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ most: most + steps }),
        value: `${most + steps} x ${orderUnit.name}`,
        text: `Buy up to ${most + steps} x ${orderUnit.name} of ${item.name} instead of ${most}`,
      }),
    });
  }
  if (least > 0) {
    levers.push({
      subject: `least ${item.name} to buy`,
      about: { item: item.name },
      step: `1 ${orderUnit.name}`,
      steps: least,
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ least: least - steps }),
        value: `${least - steps} x ${orderUnit.name}`,
        text: `Buy as few as ${least - steps} x ${orderUnit.name} of ${item.name} instead of ${least}`,
      }),
    });
  }
  return levers;
}
