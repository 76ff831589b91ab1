import { type PartKey, recognise } from "../names/recognise.js";
import { ANIMAL_HAZARDS } from "./animals.js";
import { FRUIT_HAZARDS } from "./fruits.js";
import { FUNGUS_HAZARDS } from "./fungi.js";
import { POISON_HAZARDS } from "./poisons.js";
import { PULSE_HAZARDS } from "./pulses.js";
import { ROOT_HAZARDS } from "./roots.js";
import { SPICE_HAZARDS } from "./spices.js";
import type { Hazard } from "./types.js";
import { VEGETABLE_HAZARDS } from "./vegetables.js";
import { WILD_HAZARDS } from "./wild.js";

/** The whole table of parts that are never food, or only after a treatment, or with a caution. */
export const HAZARDS: readonly Hazard[] = [
  ...VEGETABLE_HAZARDS,
  ...ROOT_HAZARDS,
  ...PULSE_HAZARDS,
  ...FRUIT_HAZARDS,
  ...SPICE_HAZARDS,
  ...WILD_HAZARDS,
  ...POISON_HAZARDS,
  ...FUNGUS_HAZARDS,
  ...ANIMAL_HAZARDS,
];

/**
 * The rows that speak of a part, gravest first: `never`, `only if`, `warn`. The names may be in any case,
 * number, order and spelling, in the languages the tables of names hold; the part's name may repeat the
 * item's. For a blend, a staple or any name that stands alone, `itemName` is "".
 */
export function hazardsOf(itemName: string, partName: string): Hazard[] {
  const { items, parts } = recognise(itemName, partName);
  const gravity = { never: 0, "only if": 1, warn: 2 };
  return HAZARDS.filter((row) =>
    row.items.some((item) => {
      const own = new Set<PartKey>();
      for (const pair of parts) if (pair.item === item) own.add(pair.part);
      if (row.parts !== "any") return row.parts.some((part) => own.has(part));
      return items.has(item) && !(row.except ?? []).some((part) => own.has(part));
    }),
  ).sort((a, b) => gravity[a.rule.kind] - gravity[b.rule.kind]);
}
