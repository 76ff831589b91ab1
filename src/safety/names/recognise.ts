import { ANIMALS } from "./animals.js";
import { CONNECTOR, wordsOf } from "./fold.js";
import { FRUITS } from "./fruits.js";
import { FUNGI } from "./fungi.js";
import { HARMLESS, KITCHEN_WORDS } from "./harmless.js";
import { type Found, makeLexicon, type Reading } from "./lexicon.js";
import { PARTS } from "./parts.js";
import { POISONS } from "./poisons.js";
import { VEGETABLES } from "./vegetables.js";
import { WILD } from "./wild.js";

export const ITEM_NAMES = { ...VEGETABLES, ...FRUITS, ...WILD, ...POISONS, ...FUNGI, ...ANIMALS };
export type ItemKey = keyof typeof ITEM_NAMES;
export type PartKey = keyof typeof PARTS;

type HazardMeaning =
  | { readonly kind: "item"; readonly key: ItemKey | "harmless" }
  | { readonly kind: "word"; readonly key: "kitchen" }
  | { readonly kind: "part"; readonly key: PartKey };

/** Single names for a part of an item that say neither. From memory. */
const PART_NAMES: readonly { item: ItemKey; part: PartKey; names: string }[] = [
  {
    item: "apricot",
    part: "pit",
    names:
      "apricot nut, amande d abricot, amande de noyau, mandorla di albicocca, armelline, armellina, 苦杏仁, 北杏, 北杏仁, 杏仁, 杏核, 杏の種, 杏子の種",
  },
  { item: "peach", part: "pit", names: "桃核, 桃仁, 桃の種" },
  { item: "plum", part: "pit", names: "梅核, 梅の種, 李核" },
  { item: "apple", part: "seed", names: "pepita de manzana" },
  { item: "pear", part: "seed", names: "梨籽, 梨の種, pepita de pera" },
  { item: "rhubarb", part: "leaf", names: "rabarberblast, rubabu ha" },
  { item: "potato", part: "leaf", names: "shaws, potato shaw, potatisblast" },
  {
    item: "potato",
    part: "sprout",
    names:
      "oeil de pomme de terre, oeil de patate, broto de batata, brotos de batata, grelo de batata, grelos de batata, jagaimo me",
  },
  { item: "potato", part: "berry", names: "potato apple, Kartoffelbeere, Kartoffelbeeren" },
];

const rows = [
  ...keysOf(ITEM_NAMES).map((key) => ({
    meanings: [{ kind: "item", key }] as const,
    names: ITEM_NAMES[key],
  })),
  ...keysOf(PARTS).map((key) => ({ meanings: [{ kind: "part", key }] as const, names: PARTS[key] })),
  ...PART_NAMES.map(({ item, part, names }) => ({
    meanings: [
      { kind: "item", key: item },
      { kind: "part", key: part },
    ] as const,
    names,
  })),
  { meanings: [{ kind: "item", key: "harmless" }] as const, names: HARMLESS, spelt: "exactly" as const },
  { meanings: [{ kind: "word", key: "kitchen" }] as const, names: KITCHEN_WORDS, spelt: "exactly" as const },
];
const lexicon = makeLexicon<HazardMeaning>(rows, { shortSlips: true });

/** What a name speaks of: items, and parts each with the item it belongs to (null where the name does not say). */
export interface Recognised {
  readonly items: ReadonlySet<ItemKey>;
  readonly parts: readonly { readonly item: ItemKey | null; readonly part: PartKey }[];
}

/**
 * Reads the name of a part and of the item it is cut from ("" for a blend). Every part word belongs to the
 * item; in a blend it belongs to the item named nearest before it ("tomato leaf") or after "of" ("leaf of
 * tomato"), else to the next, else to all in the name.
 */
export function recognise(itemName: string, partName: string): Recognised {
  const rest = withoutItem(itemName, partName);
  const whole = lexicon.read(`${itemName} ${rest}`);
  const own = itemKeys(lexicon.read(itemName).found);
  const partReading = lexicon.read(rest);
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
  return lexicon.read(itemName).found.some(namesItem);
}

/** "rhubarb leaf" of the item "rhubarb" is "leaf". */
function withoutItem(itemName: string, partName: string): string {
  return itemName !== "" && partName.toLowerCase().startsWith(`${itemName.toLowerCase()} `)
    ? partName.slice(itemName.length + 1)
    : partName;
}

/** The item's own name up to the first "with", without parts said to be on it: "stone-in", "leaves on". */
function itemReading(itemName: string): Reading<HazardMeaning> {
  const first = wordsOf(itemName).join(" ").split(CONNECTOR)[0] ?? "";
  const reading = lexicon.read(first);
  const attached = ["on", "in", "removed", "off", "out", "attached"];
  return {
    words: reading.words,
    found: reading.found.filter(({ at, length }) => !attached.includes(reading.words[at + length] ?? "")),
  };
}

function partOwners({ words, found }: Reading<HazardMeaning>): { item: ItemKey | null; part: PartKey }[] {
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
    const owners: (ItemKey | null)[] =
      owner !== undefined ? [...itemKeys([owner, ...itself])] : everyItem.length > 0 ? everyItem : [null];
    return owners.flatMap((item) => parts.map((part) => ({ item, part })));
  });
}

const namesItem = ({ meanings }: Found<HazardMeaning>): boolean =>
  meanings.some(({ kind }) => kind === "item");

const namesPart = ({ meanings }: Found<HazardMeaning>): boolean =>
  meanings.some(({ kind }) => kind === "part");

function itemKeys(found: readonly Found<HazardMeaning>[]): Set<ItemKey> {
  return new Set(
    found.flatMap(({ meanings }) =>
      meanings.flatMap((meaning) =>
        meaning.kind === "item" && meaning.key !== "harmless" ? [meaning.key] : [],
      ),
    ),
  );
}

function keysOf<Key extends string>(table: Record<Key, string>): Key[] {
  return Object.keys(table) as Key[];
}
