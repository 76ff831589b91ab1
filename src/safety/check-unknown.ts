import type { Part, Scenario } from "../kitchen/index.js";
import { dishesWith } from "./check-hazards.js";
import type { SafetyBlock, Warning } from "./findings.js";
import { hazards } from "./hazards/match.js";
import { lazily } from "./lazily.js";
import type { Lineage } from "./lineage.js";
import { makeLexicon } from "./names/lexicon.js";
import { isKnownItem, recognise } from "./names/recognise.js";
import { wordList } from "./tables/load.js";

const lexicon = lazily(() =>
  makeLexicon([{ meanings: [{ kind: "part", key: "food" }], names: wordList("food parts") }]),
);
const SOURCE = "caution of this program: no table holds it as food";

/** Parts used as food that no table knows as such and no one in the kitchen has answered for. */
export function unknownParts(scenario: Scenario, lineage: Lineage): SafetyBlock[] {
  return unknown(scenario, lineage)
    .filter(({ foodBy }) => foodBy === null)
    .map((part) => {
      const rows = neverRowsOf(part, lineage);
      const besides = rows === "" ? "" : `, and ${part.item} has parts that must never be eaten (${rows})`;
      const text = `${part.name} is used as food, and no table knows it as food${besides}: it may be poisonous. Someone in the kitchen who knows must answer for it, as "food_by" under parts; a plainer name may settle it. Source: ${SOURCE}.`;
      return { code: "unknown-part", text, source: SOURCE, part: part.name, dish: null };
    });
}

/** Parts served on the kitchen's own word, printed as that. */
export function statedParts(scenario: Scenario, lineage: Lineage): Warning[] {
  return unknown(scenario, lineage).flatMap(({ name, foodBy }) => {
    if (foodBy === null) return [];
    const source = "this kitchen's own statement";
    const text = `${name} is food on this kitchen's own word ("${foodBy}"); no table knows it as food. Source: ${source}.`;
    return [{ code: "stated-food", text, source, part: name, dish: null }];
  });
}

function unknown(scenario: Scenario, lineage: Lineage): Part[] {
  return scenario.parts.filter(
    (part) =>
      part.class !== "never" &&
      (part.class === "food" || part.carry !== null || dishesWith(scenario, part.name).length > 0) &&
      !isKnown(part, lineage, []),
  );
}

/**
 * Whether tables hold a part as food: the yield tables; plain words for food of an item that is known as food; or
 * all that it is made of, where that is food.
 */
function isKnown(part: Part, lineage: Lineage, seen: readonly string[]): boolean {
  if (part.inTables) return true;
  const sources = lineage.sourcesOf(part.name).filter(({ name }) => !seen.includes(name));
  const isSourceKnown = (source: Part): boolean => isKnown(source, lineage, [...seen, part.name]);
  if (sources.length > 0 && sources.every((source) => source.class === "food" && isSourceKnown(source)))
    return true;
  const forms = lineage.itemsOf(part);
  const whole = part.item;
  if (whole === null) return sources.length > 0 && isPlainWord(part.name) && sources.every(isSourceKnown);
  if (!isKnownItem(whole) && !forms.some(({ inTables }) => inTables)) return false;
  if (!forms.some(({ handling }) => handling === "plant")) return true;
  const { items, parts } = recognise(whole, part.name);
  const own = part.name.toLowerCase().replace(whole.toLowerCase(), "").trim();
  return own === "" || isPlainWord(own) || parts.some((pair) => pair.item === null || items.has(pair.item));
}

function isPlainWord(name: string): boolean {
  return lexicon().read(name).found.length > 0;
}

function neverRowsOf(part: Part, lineage: Lineage): string {
  const names = [part.item ?? "", ...lineage.itemsOf(part).map(({ name }) => name)];
  const items = new Set(names.flatMap((name) => [...recognise(name, "").items]));
  return hazards()
    .filter(
      (row) => row.rule.kind === "never" && row.parts !== "any" && row.items.some((item) => items.has(item)),
    )
    .map(({ id }) => id)
    .join("; ");
}
