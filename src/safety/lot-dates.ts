import { type Dish, type Item, type Lot, type Part, partHeld, type Scenario } from "../kitchen/index.js";
import { lastDayLeftBy, lastOfferDay, lastUseDay, lastUseDayOnHand } from "./life.js";
import { itemsOfPart } from "./lineage.js";

/**
 * Last day a lot may go into a dish; null when it outlasts any plan. What a step gives keeps the date of its
 * source, but for freezing, which gives a life of its own.
 */
export function lastDayOfLot({ part: name, origin }: Lot, scenario: Scenario): number | null {
  const found = partOf(name, scenario);
  if (found === null) return null;
  const { part, item } = found;
  if (origin.kind === "cut") return lastUseDay(part, item, cutDay(origin.service, scenario), scenario.rules);
  const stock = scenario.partsOnHand[origin.index];
  const { how = "on hand", day = 0 } = stock?.since ?? {};
  if (how === "cut" || (part.state === "frozen" && partHeld(origin, scenario) !== name))
    return lastUseDay(part, item, day, scenario.rules);
  return lastUseDayOnHand(part, item, stock?.lastDay ?? null, scenario.rules, day);
}

/**
 * Last day that a lot leaves to what is cooked with it on a day; null where it bears no legal date.
 */
export function lastDayLeftByLot({ part: name, origin }: Lot, cookDay: number, scenario: Scenario) {
  const found = partOf(name, scenario);
  if (found === null) return null;
  const { part, item } = found;
  if (origin.kind === "cut") {
    const age = { kind: "cut", day: cutDay(origin.service, scenario) } as const;
    return lastDayLeftBy(part, item, age, cookDay, scenario.rules);
  }
  const stock = scenario.partsOnHand[origin.index];
  const since = stock?.since;
  if (since?.how === "cut")
    return lastDayLeftBy(part, item, { kind: "cut", day: since.day }, cookDay, scenario.rules);
  const held = partHeld(origin, scenario);
  const frozen = scenario.parts.find((entry) => entry.name === held)?.state === "frozen";
  const age = { kind: "on hand", day: since?.day ?? 0, lastDay: stock?.lastDay ?? null, frozen } as const;
  return lastDayLeftBy(part, item, age, cookDay, scenario.rules);
}

/** Last day that what is left of a dish, cooked for a service with these lots, may be offered. */
export function lastOfferDayOf(
  dish: Dish,
  service: number,
  lots: readonly Lot[],
  scenario: Scenario,
): number {
  const day = cutDay(service, scenario);
  const left = lots.map((lot) => lastDayLeftByLot(lot, day, scenario));
  return lastOfferDay(dish.keepsDays, day, left, scenario.rules);
}

function cutDay(service: number, scenario: Scenario): number {
  return scenario.services[service]?.day ?? 0;
}

function partOf(name: string, scenario: Scenario): { part: Part; item: Item | null } | null {
  const part = scenario.parts.find((entry) => entry.name === name);
  if (part === undefined) return null;
  const [item = null] = itemsOfPart(part, scenario);
  return { part, item };
}
