import { lazily } from "../lazily.js";
import { safetyTables, wordList } from "../tables/load.js";
import { CONNECTOR, wordsOf } from "./fold.js";
import { type Found, type Meaning, makeLexicon, type Reading } from "./lexicon.js";

/** Stands for items that no hazard row speaks of; no item of a table is called so. */
const HARMLESS = "";

const lexicon = lazily(() =>
  makeLexicon<Meaning>(
    [
      ...safetyTables().names.map(({ item, part, names }) => ({
        meanings: [
          ...(item === null ? [] : [{ kind: "item" as const, key: item }]),
          ...(part === null ? [] : [{ kind: "part" as const, key: part }]),
        ],
        names,
      })),
      { meanings: [{ kind: "item", key: HARMLESS }], names: wordList("harmless"), spelt: "exactly" },
      { meanings: [{ kind: "word", key: "kitchen" }], names: wordList("kitchen words"), spelt: "exactly" },
    ],
    { shortSlips: true },
  ),
);

/** What a name speaks of: items, and parts each with the item it belongs to (null where the name does not say). */
export interface Recognised {
  readonly items: ReadonlySet<string>;
  readonly parts: readonly { readonly item: string | null; readonly part: string }[];
}

/**
 * Reads the name of a part and of the item it is cut from ("" for a blend). Every part word belongs to the
 * item; in a blend it belongs to the item named nearest before it ("tomato leaf") or after "of" ("leaf of
 * tomato"), else to the next, else to all in the name.
 */
export function recognise(itemName: string, partName: string): Recognised {
  const rest = withoutItem(itemName, partName);
  const whole = lexicon().read(`${itemName} ${rest}`);
  const own = itemKeys(lexicon().read(itemName).found);
  const partReading = lexicon().read(rest);
  const named = partOwners(partReading);
  const fromItem = partOwners(itemReading(itemName)).map(({ part }) => part);
  const items = new Set([...own, ...itemKeys(whole.found)]);
  const mine = [...named.map(({ part }) => part), ...fromItem];
  const owned = [...own].flatMap((item) => mine.map((part) => ({ item, part })));
  const sayingBoth = {
    words: whole.words,
    found: whole.found.filter((name) => namesItem(name) && namesPart(name)),
  };
  const acrossBoth = itemName === "" ? [] : partOwners(own.size > 0 ? sayingBoth : whole);
  return { items, parts: [...owned, ...named, ...acrossBoth] };
}

/** Whether a name is that of a plant, animal or food that the tables of names hold, harmful or not. */
export function isKnownItem(itemName: string): boolean {
  return lexicon().read(itemName).found.some(namesItem);
}

/** "rhubarb leaf" of the item "rhubarb" is "leaf". */
function withoutItem(itemName: string, partName: string): string {
  return itemName !== "" && partName.toLowerCase().startsWith(`${itemName.toLowerCase()} `)
    ? partName.slice(itemName.length + 1)
    : partName;
}

/** The item's own name up to the first "with", without parts said to be on it: "stone-in", "leaves on". */
function itemReading(itemName: string): Reading<Meaning> {
  const first = wordsOf(itemName).join(" ").split(CONNECTOR)[0] ?? "";
  const reading = lexicon().read(first);
  const attached = ["on", "in", "removed", "off", "out", "attached"];
  return {
    words: reading.words,
    found: reading.found.filter(({ at, length }) => !attached.includes(reading.words[at + length] ?? "")),
  };
}

function partOwners({ words, found }: Reading<Meaning>): { item: string | null; part: string }[] {
  const kept = found.filter(
    ({ at }) => !["without", "no", "sans", "ohne", "sin", "senza"].includes(words[at - 1] ?? ""),
  );
  const segmentOf = (at: number) => words.slice(0, at).filter((word) => word === CONNECTOR).length;
  const everyItem = [...itemKeys(kept)];
  return kept.flatMap((name) => {
    const parts = name.meanings.flatMap((meaning) => (meaning.kind === "part" ? [meaning.key] : []));
    if (parts.length === 0) return [];
    const beside = kept.filter((other) => namesItem(other) && segmentOf(other.at) === segmentOf(name.at));
    const before = words[name.at + name.length] === "of" ? [] : beside.filter(({ at }) => at < name.at);
    const itself = namesItem(name) ? [name] : [];
    const owner = before.at(-1) ?? itself[0] ?? beside.find(({ at }) => at > name.at);
    const owners: (string | null)[] =
      owner !== undefined ? [...itemKeys([owner, ...itself])] : everyItem.length > 0 ? everyItem : [null];
    return owners.flatMap((item) => parts.map((part) => ({ item, part })));
  });
}

const namesItem = ({ meanings }: Found<Meaning>): boolean => meanings.some(({ kind }) => kind === "item");

const namesPart = ({ meanings }: Found<Meaning>): boolean => meanings.some(({ kind }) => kind === "part");

function itemKeys(found: readonly Found<Meaning>[]): Set<string> {
  return new Set(
    found.flatMap(({ meanings }) =>
      meanings.flatMap((meaning) =>
        meaning.kind === "item" && meaning.key !== HARMLESS ? [meaning.key] : [],
      ),
    ),
  );
}
