import type { Dish, Item, Part, Scenario } from "../../src/kitchen/index.js";
import { grams } from "../../src/quantity/index.js";
import { aBreakdown, aDish, aLine, anItem, aPart, aScenario, aService } from "./nouns.js";

/** A scenario of one dinner with nothing in it but what is stated. */
export function buildScenario(stated: Partial<Scenario> = {}): Scenario {
  return aScenario({ services: [aService("Friday dinner")], items: [], parts: [], ...stated });
}

/** What `servingOf` is asked to serve; the part is food of a plant unless stated. */
export interface Serving {
  readonly item: string;
  readonly part: string;
  readonly itemFacts?: Partial<Item>;
  readonly partFacts?: Partial<Part>;
  readonly dish?: Partial<Dish>;
  readonly scenario?: Partial<Scenario>;
}

/** A scenario that cuts one item into one part and serves that in the dish "plate". */
export function servingOf({ item, part, itemFacts, partFacts, dish, scenario }: Serving): Scenario {
  const name = `${item} ${part}`;
  return buildScenario({
    items: [
      anItem({
        name: item,
        unitWeight: grams("500"),
        breakdowns: [aBreakdown("cut", { [name]: "1" }, "0")],
        ...itemFacts,
      }),
    ],
    parts: [aPart(name, "food", { item, ...partFacts })],
    dishes: [aDish("plate", [aLine("100", name)], [], dish)],
    ...scenario,
  });
}
