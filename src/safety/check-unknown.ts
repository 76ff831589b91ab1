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
    const forms = lineage.itemsOf(part);
    const whole = part.item ?? "";
    if (part.class !== "food" || !forms.some(({ handling }) => handling === "plant")) return [];
    const dangers = neverPartsOf([whole, ...forms.map(({ name }) => name)]);
    const { items, parts } = recognise(whole, part.name);
    const own = part.name.toLowerCase().replace(whole.toLowerCase(), "").trim();
    const known = own === "" || parts.some((pair) => pair.item !== null && items.has(pair.item));
    if (dangers.length === 0 || known || lexicon.read(own).found.length > 0) return [];
    const rows = dangers.map(({ id }) => id).join("; ");
    const text = `${part.name} is a name no table knows, and ${whole} has parts that must never be eaten (${rows}). It is served on this kitchen's own word that it is none of them; a plainer name settles it.`;
    return [
      { code: "unknown-part", text, source: "this kitchen's own statement", part: part.name, dish: null },
    ];
  });
}

function neverPartsOf(itemNames: readonly string[]): Hazard[] {
  const items = new Set(itemNames.flatMap((name) => [...recognise(name, "").items]));
  return HAZARDS.filter(
    (row) => row.rule.kind === "never" && row.parts !== "any" && row.items.some((item) => items.has(item)),
  );
}
