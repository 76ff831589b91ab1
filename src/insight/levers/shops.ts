import type { Item, Scenario } from "../../kitchen/index.js";
import type { Lever } from "./lever.js";

/** With no most stated, so many order units are tried. */
const MANY = 1000;

/** Buying on the day what nothing says can be bought, in a shop or of a supplier that delivers again. */
export function shopLevers(item: Item, scenario: Scenario): Lever[] {
  const { inShops, buying, orderUnit } = item;
  const first = scenario.services[0];
  if (inShops === undefined || first === undefined) return [];
  const withBuying = (changed: Item["buying"]): Scenario => ({
    ...scenario,
    items: scenario.items.map((other) => (other === item ? { ...item, buying: changed } : other)),
  });
  const common = { subject: `${item.name} bought before ${first.name}`, about: { item: item.name } };
  if (buying !== null)
    return [
      {
        ...common,
        step: "buying it",
        steps: 1,
        eases: "always",
        change: () => ({
          scenario: withBuying({ ...buying, deliveries: [0, ...buying.deliveries] }),
          value: "can be bought",
          text: `Buy ${item.name} before ${first.name}, if it can be had`,
        }),
      },
    ];
  return [
    {
      ...common,
      step: `1 ${orderUnit.name}`,
      steps: inShops.most ?? MANY,
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ ...inShops, most: steps }),
        value: `${steps} x ${orderUnit.name}`,
        text: `Buy ${steps} x ${orderUnit.name} of ${item.name} before ${first.name}, if it can be had`,
      }),
    },
  ];
}
