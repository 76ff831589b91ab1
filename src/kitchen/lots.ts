import type { Lot, LotOrigin } from "./decision.js";
import type { PartOnHand, Scenario } from "./scenario.js";
import { serviceName } from "./services.js";

/** One text for each origin; alike for lots of one date. */
export function originKey(origin: LotOrigin): string {
  return origin.kind === "cut" ? `cut ${origin.service}` : `on hand ${origin.index}`;
}

/** One text for each lot. */
export function lotKey(lot: Lot): string {
  return `${lot.part} | ${originKey(lot.origin)}`;
}

/** The stock on hand that a lot is as the house had it; undefined where it was cut, or a step made it. */
export function stockAsFound({ part, origin }: Lot, scenario: Scenario): PartOnHand | undefined {
  const stock = origin.kind === "onHand" ? scenario.partsOnHand[origin.index] : undefined;
  return stock?.part === part && partHeld(origin, scenario) === part ? stock : undefined;
}

/** The part that the house had, of which the lots of an origin are; undefined of what was cut. */
export function partHeld(origin: LotOrigin, { partsOnHand }: Scenario): string | undefined {
  const stock = origin.kind === "onHand" ? partsOnHand[origin.index] : undefined;
  if (stock?.since?.how === "cut") return undefined;
  return stock?.since?.part ?? stock?.part;
}

/** "cut for Friday dinner", "from stock on hand 1". */
export function originName(scenario: Scenario, origin: LotOrigin): string {
  return origin.kind === "cut"
    ? `cut for ${serviceName(scenario, origin.service)}`
    : `from stock on hand ${origin.index + 1}`;
}

/** The lot as messages and rows of a model name it. */
export function lotName(scenario: Scenario, lot: Lot): string {
  return `${lot.part}, ${originName(scenario, lot.origin)}`;
}

/** Things so ordered that each comes after all it is made of, else as they stand; `circle` is thrown where none can. */
export function sourcesFirst<T>(
  things: Iterable<T>,
  sourcesOf: (thing: T) => Iterable<T>,
  circle: (thing: T) => Error,
): T[] {
  const placed = new Set<T>();
  const begun = new Set<T>();
  const place = (thing: T): void => {
    if (placed.has(thing)) return;
    if (begun.has(thing)) throw circle(thing);
    begun.add(thing);
    for (const source of sourcesOf(thing)) place(source);
    placed.add(thing);
  };
  for (const thing of things) place(thing);
  return [...placed];
}
