import { addDays, type Lot, type PartClass, type Scenario } from "../kitchen/index.js";
import { lastDayOfLot } from "../safety/index.js";

/** The nouns of a scenario as the contract writes them. */
export type Names = ReturnType<typeof namesOf>;

export function namesOf(scenario: Scenario) {
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const items = new Map(scenario.items.map((item) => [item.name, item]));
  return {
    service: (index: number): string => scenario.services[index]?.name ?? "",
    item: (name: string) => items.get(name),
    dish: (name: string) => scenario.dishes.find((dish) => dish.name === name),
    classOf: (part: string): PartClass => parts.get(part)?.class ?? "food",
    cutFor: ({ origin }: Lot): string | null =>
      origin.kind === "cut" ? (scenario.services[origin.service]?.name ?? null) : null,
    cutDate: ({ origin }: Lot): string | null =>
      origin.kind === "cut" ? (scenario.services[origin.service]?.date ?? null) : null,
    useBy: (lot: Lot): string | null => {
      const lastDay = lastDayOfLot(lot, scenario);
      return lastDay === null ? null : addDays(scenario.firstDate, lastDay);
    },
  };
}

export function stockOf({ origin }: Lot): number | null {
  return origin.kind === "onHand" ? origin.index : null;
}
