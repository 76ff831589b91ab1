import type { Lot, Scenario } from "../kitchen/index.js";
import { itemsOfPart, lastUseDay, lastUseDayOnHand } from "../safety/index.js";

/**
 * Last day a lot may go into a dish; null when it outlasts any plan. What a step gives keeps the date of its
 * source, but for freezing, which gives a life of its own.
 */
export function lastDayOfLot({ part: name, origin }: Lot, scenario: Scenario): number | null {
  const part = scenario.parts.find((entry) => entry.name === name);
  if (part === undefined) return null;
  const [item = null] = itemsOfPart(part, scenario);
  if (origin.kind === "cut") return lastUseDay(part, item, scenario.services[origin.service]?.day ?? 0);
  const stock = scenario.partsOnHand[origin.index];
  if (part.state === "frozen" && stock?.part !== name) return lastUseDay(part, item, 0);
  return lastUseDayOnHand(part, item, stock?.lastDay ?? null);
}
