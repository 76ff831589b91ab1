import type { AllergenChoice } from "../kitchen/index.js";
import { lazily } from "./lazily.js";
import { makeLexicon } from "./names/lexicon.js";
import { ALLERGEN_LISTS, type AllergenList, type AllergenListName } from "./tables/allergens.js";
import { rowOf, safetyTables, wordList } from "./tables/load.js";

/** The name printed of an allergen, as allergens.csv has it. */
export type Allergen = string;

/** Stands for foods that hold the name of an allergen and are none; no allergen of a table is called so. */
const HARMLESS = "";

/** Every allergen of the table, in its order. */
export const allergenNames = lazily((): readonly Allergen[] =>
  safetyTables().allergens.map(({ allergen }) => allergen),
);

/** What the law of a place has a kitchen tell its guests. */
export function allergenList(list: AllergenListName): AllergenList {
  return rowOf(safetyTables().allergenLists, list);
}

/** All of these lists. */
export function allergenLists(): AllergenList[] {
  return ALLERGEN_LISTS.map(allergenList);
}

const lexicon = lazily(() =>
  makeLexicon<{ kind: "item"; key: Allergen }>([
    ...safetyTables().allergens.map(({ allergen, foods }) => ({
      meanings: [{ kind: "item" as const, key: allergen }],
      names: foods,
    })),
    { meanings: [{ kind: "item", key: HARMLESS }], names: wordList("no allergen"), spelt: "exactly" },
  ]),
);

/** What an allergen implies, null for most. */
function impliedBy(name: Allergen): Allergen | null {
  return safetyTables().allergens.find(({ allergen }) => allergen === name)?.implies ?? null;
}

/** The allergens a food carries by its name, wheat counting as a cereal with gluten too. */
export function allergensOfItem(name: string): Allergen[] {
  return complete(allergensNamed(name));
}

/** The allergens a text names, as they stand: "wheat" alone for wheat, both nuts and peanuts for "nuts". */
export function allergensNamed(text: string): Allergen[] {
  const found = lexicon()
    .read(text)
    .found.flatMap(({ meanings }) => meanings.map(({ key }) => key));
  return allergenNames().filter((allergen) => found.includes(allergen));
}

/** The allergen that a word in a list of allergens means ("dairy", "Sellerie", "shellfish"); null if none. */
export function canonicalAllergen(name: string): Allergen | null {
  const { words, found } = lexicon().read(name);
  const whole = found.find(({ length }) => length === words.length);
  const keys = (whole ?? found[0])?.meanings.flatMap(({ key }) => (key === HARMLESS ? [] : [key])) ?? [];
  return keys[0] ?? null;
}

/** The same allergens with what they imply, each once, in the order of the table. */
export function complete(allergens: Iterable<Allergen>): Allergen[] {
  const all = new Set(allergens);
  for (const allergen of all) {
    const implied = impliedBy(allergen);
    if (implied !== null) all.add(implied);
  }
  return allergenNames().filter((allergen) => all.has(allergen));
}

/** The allergens that are food of animals, of these kinds. */
export function allergensOfAnimals(...kinds: readonly ("milk" | "egg" | "seafood")[]): Allergen[] {
  return safetyTables().allergens.flatMap(({ allergen, ofAnimals }) =>
    ofAnimals !== null && kinds.includes(ofAnimals) ? [allergen] : [],
  );
}

const CHOSEN: Readonly<Record<AllergenChoice, readonly AllergenListName[]>> = {
  "us nine": ["US nine"],
  "eu and uk fourteen": ["EU and UK fourteen"],
  both: ["US nine", "EU and UK fourteen"],
};

/** The allergens that guests must be told of under the lists chosen. */
export function namedAllergens(choice: AllergenChoice): Allergen[] {
  const named = CHOSEN[choice].flatMap((list) => allergenList(list).allergens);
  return allergenNames().filter((allergen) => named.includes(allergen));
}

/** The laws behind the lists chosen. */
export function allergenSources(choice: AllergenChoice): string[] {
  return CHOSEN[choice].map((list) => allergenList(list).source);
}

/**
 * What guests are told of: the allergens of the lists chosen, and besides them whatever else is carried, so that
 * nothing known is left unsaid. A cereal already named is not said again as the other list calls it.
 */
export function guestAllergens(
  { allergens, others }: { readonly allergens: readonly Allergen[]; readonly others: readonly string[] },
  choice: AllergenChoice,
): { told: Allergen[]; besides: string[] } {
  const all = complete(allergens);
  const told = namedAllergens(choice).filter((allergen) => all.includes(allergen));
  const isSaid = (allergen: Allergen): boolean => told.some((other) => impliedBy(other) === allergen);
  const besides = all.filter((allergen) => !told.includes(allergen) && !isSaid(allergen));
  const named = besides.map((allergen) =>
    told.includes(impliedBy(allergen) ?? "") ? `${allergen} among them` : allergen,
  );
  return { told, besides: [...named, ...others] };
}
