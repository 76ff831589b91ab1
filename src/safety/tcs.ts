import type { Item, Part } from "../kitchen/index.js";
import { lazily } from "./lazily.js";
import { makeLexicon } from "./names/lexicon.js";
import { animalKindsIn } from "./of-animals.js";
import { rowOf, safetyTables, wordList } from "./tables/load.js";
import type { Tcs, TcsKind } from "./tables/temperature-control.js";

/** Lists of words.csv that a name is held against. */
const LISTS = [
  "melon",
  "leafy greens",
  "leaf",
  "tomato",
  "seed sprouts",
  "in oil",
  "cooked",
  "herb",
  "preserved",
  "none of these",
] as const;
type List = (typeof LISTS)[number];

const lexicon = lazily(() =>
  makeLexicon<{ kind: "item"; key: List }>(
    LISTS.map((key) => ({ meanings: [{ kind: "item", key }], names: wordList(key) })),
  ),
);

/** Why an item, by its name, needs temperature control once it is cut; null where cutting does not bring that. */
export function tcsOnceCut(name: string): Tcs | null {
  const keys = keysIn(name);
  if (keys.has("seed sprouts")) return reason("seed sprouts");
  if (keys.has("in oil")) return reason("in oil");
  if (keys.has("preserved")) return null;
  if (keys.has("cooked")) return reason("cooked");
  if (keys.has("melon")) return reason("cut melon");
  if (keys.has("tomato")) return reason("cut tomato");
  return keys.has("leafy greens") || (keys.has("leaf") && !keys.has("herb"))
    ? reason("cut leafy greens")
    : null;
}

/** Whether a name says that a food is dried, pickled or otherwise preserved. */
export function isPreserved(name: string): boolean {
  return keysIn(name).has("preserved");
}

/**
 * Why a part, cut or made, needs temperature control; `item` is null for a blend. Null where it does not. An item
 * that no table holds counts as food of animals where its name says so, however it is said to be handled.
 */
export function tcsOf(part: Part, item: Item | null): Tcs | null {
  if (item !== null && (item.handling !== "plant" || isOfAnimalsByName(item, part))) return reason("animal");
  if (part.state === "cooked") return reason("cooked");
  const byName = tcsOnceCut(`${item?.name ?? ""} ${part.name}`);
  if (byName !== null || item !== null) return byName;
  return isPreserved(part.name) ? null : reason("mixture");
}

function reason(kind: TcsKind): Tcs {
  return rowOf(safetyTables().temperatureControl, kind);
}

function isOfAnimalsByName({ name, inTables }: Item, part: Part): boolean {
  return !inTables && animalKindsIn(`${name} ${part.name}`).length > 0;
}

function keysIn(name: string): Set<List> {
  return new Set(
    lexicon()
      .read(name)
      .found.flatMap(({ meanings }) => meanings.map(({ key }) => key)),
  );
}
