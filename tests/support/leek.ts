import type { Item, Scenario } from "../../src/kitchen/index.js";
import { breakdownOf, itemOf, partOf, scenarioOf, serviceOf } from "./small-scenario.js";

/** At most six leeks of 200 g at 1.00, each 100 g of white, 60 g of green and a root of 40 g, for one dinner. */
export function leekScenario(dishes: Scenario["dishes"], stated: Partial<Scenario> = {}): Scenario {
  return scenarioOf({
    services: [serviceOf("dinner", 0)],
    items: [leekItem()],
    parts: [
      partOf("leek white", "leek"),
      partOf("leek green", "leek"),
      partOf("leek root", "leek", "inedible"),
    ],
    dishes,
    ...stated,
  });
}

export function leekItem(stated: Partial<Item> = {}): Item {
  const trimmed = breakdownOf("trimmed", 200, { "leek white": 100, "leek green": 60, "leek root": 40 });
  return itemOf("leek", 200, "1.00", 6, [trimmed], stated);
}

/** The leek scenario with every part kept so many days. */
export function keptFor(scenario: Scenario, days: Readonly<Record<string, number>>): Scenario {
  return {
    ...scenario,
    parts: scenario.parts.map((part) => ({ ...part, keepsDays: days[part.name] ?? part.keepsDays })),
  };
}
