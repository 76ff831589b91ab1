import type { Scenario } from "../kitchen/index.js";
import type { Warning } from "./findings.js";
import { HAZARDS } from "./hazards/match.js";
import type { Hazard } from "./hazards/types.js";
import type { Lineage } from "./lineage.js";
import { FOOD_PARTS } from "./names/food-parts.js";
import { makeLexicon } from "./names/lexicon.js";
import { recognise } from "./names/recognise.js";

const lexicon = makeLexicon([{ meanings: [{ kind: "part", key: "food" }], names: FOOD_PARTS }]);

/**
 * Parts of plants some of whose parts must never be eaten, by names that no table knows: they are served on the
 * kitchen's own word.
 */
export function unknownParts(scenario: Scenario, lineage: Lineage): Warning[] {
  return scenario.parts.flatMap((part) => {
    const item = lineage.itemOf(part);
    if (part.class !== "food" || item === null || item.handling !== "plant") return [];
    const dangers = neverPartsOf(item.name);
    const { items, parts } = recognise(item.name, part.name);
    const own = part.name.toLowerCase().replace(item.name.toLowerCase(), "").trim();
    const known = own === "" || parts.some((pair) => pair.item !== null && items.has(pair.item));
    if (dangers.length === 0 || known || lexicon.read(own).found.length > 0) return [];
    const rows = dangers.map(({ id }) => id).join("; ");
    const text = `${part.name} is a name no table knows, and ${item.name} has parts that must never be eaten (${rows}). It is served on this kitchen's own word that it is none of them; a plainer name settles it.`;
    return [
      { code: "unknown-part", text, source: "this kitchen's own statement", part: part.name, dish: null },
    ];
  });
}

function neverPartsOf(itemName: string): Hazard[] {
  const { items } = recognise(itemName, "");
  return HAZARDS.filter(
    (row) => row.rule.kind === "never" && row.parts !== "any" && row.items.some((item) => items.has(item)),
  );
}
