import { recognise } from "../names/recognise.js";
import { safetyTables } from "../tables/load.js";
import { GRAVITY, type Hazard } from "./types.js";

/** The whole table of parts that are never food, or only after a treatment, or with a caution. */
export function hazards(): readonly Hazard[] {
  return safetyTables().hazards;
}

/**
 * The rows that speak of a part, gravest first: `never`, `only if`, `warn`. The names may be in any case,
 * number, order and spelling, in the languages the tables of names hold; the part's name may repeat the
 * item's. For a blend, a staple or any name that stands alone, `itemName` is "".
 */
export function hazardsOf(itemName: string, partName: string): Hazard[] {
  const { items, parts } = recognise(itemName, partName);
  return hazards()
    .filter((row) =>
      row.items.some((item) => {
        const own = new Set<string>();
        for (const pair of parts) if (pair.item === item) own.add(pair.part);
        if (row.parts !== "any") return row.parts.some((part) => own.has(part));
        return items.has(item) && !(row.except ?? []).some((part) => own.has(part));
      }),
    )
    .sort((a, b) => GRAVITY[a.rule.kind] - GRAVITY[b.rule.kind]);
}
