import type { AllergenChoice } from "../kitchen/index.js";
import { ALLERGEN_FOODS } from "./names/allergens.js";
import { makeLexicon } from "./names/lexicon.js";

/** The allergens of both lists, by the names printed. */
export const ALLERGENS = [
  "milk",
  "egg",
  "fish",
  "crustaceans",
  "molluscs",
  "tree nuts",
  "peanuts",
  "wheat",
  "cereals containing gluten",
  "soybeans",
  "sesame",
  "celery",
  "mustard",
  "sulphites",
  "lupin",
] as const;
export type Allergen = (typeof ALLERGENS)[number];

export interface AllergenList {
  readonly name: string;
  readonly allergens: readonly Allergen[];
  readonly source: string;
  readonly basis: "read" | "memory";
}

/** What the law of a place has a kitchen tell its guests. */
export const ALLERGEN_LISTS = {
  "US nine": {
    name: "US nine major food allergens",
    allergens: ["milk", "egg", "fish", "crustaceans", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"],
    source: "FDA, FASTER Act: sesame is the ninth major food allergen, from 1 January 2023",
    basis: "read",
  },
  "EU and UK fourteen": {
    name: "EU and UK fourteen allergens",
    allergens: [
      "cereals containing gluten",
      "crustaceans",
      "egg",
      "fish",
      "peanuts",
      "soybeans",
      "milk",
      "tree nuts",
      "celery",
      "mustard",
      "sesame",
      "sulphites",
      "lupin",
      "molluscs",
    ],
    source: "Regulation (EU) 1169/2011 Annex II (sulphites above 10 mg/kg or 10 mg/L as SO2)",
    basis: "read",
  },
} as const satisfies Record<string, AllergenList>;
export type AllergenListName = keyof typeof ALLERGEN_LISTS;

const lexicon = makeLexicon<{ kind: "item"; key: Allergen | "harmless" }>(
  ([...ALLERGENS, "harmless"] as const).map((key) => ({
    meanings: [{ kind: "item", key }],
    names: ALLERGEN_FOODS[key],
    ...(key === "harmless" ? { spelt: "exactly" as const } : {}),
  })),
);

/** The allergens a food carries by its name, wheat counting as a cereal with gluten too. */
export function allergensOfItem(name: string): Allergen[] {
  return complete(allergensNamed(name));
}

/** The allergens a text names, as they stand: "wheat" alone for wheat, both nuts and peanuts for "nuts". */
export function allergensNamed(text: string): Allergen[] {
  const found = lexicon.read(text).found.flatMap(({ meanings }) => meanings.map(({ key }) => key));
  return ALLERGENS.filter((allergen) => found.includes(allergen));
}

/** The allergen that a word in a list of allergens means ("dairy", "Sellerie", "shellfish"); null if none. */
export function canonicalAllergen(name: string): Allergen | null {
  const { words, found } = lexicon.read(name);
  const whole = found.find(({ length }) => length === words.length);
  const keys = (whole ?? found[0])?.meanings.flatMap(({ key }) => (key === "harmless" ? [] : [key])) ?? [];
  return keys[0] ?? null;
}

/** The same allergens with what they imply, each once, in the order of `ALLERGENS`. */
export function complete(allergens: Iterable<Allergen>): Allergen[] {
  const all = new Set(allergens);
  if (all.has("wheat")) all.add("cereals containing gluten");
  return ALLERGENS.filter((allergen) => all.has(allergen));
}

const CHOSEN: Readonly<Record<AllergenChoice, readonly AllergenListName[]>> = {
  "us nine": ["US nine"],
  "eu and uk fourteen": ["EU and UK fourteen"],
  both: ["US nine", "EU and UK fourteen"],
};

/** The allergens that guests must be told of under the lists chosen. */
export function namedAllergens(choice: AllergenChoice): Allergen[] {
  const named = CHOSEN[choice].flatMap((list): readonly Allergen[] => ALLERGEN_LISTS[list].allergens);
  return ALLERGENS.filter((allergen) => named.includes(allergen));
}

/** The laws behind the lists chosen. */
export function allergenSources(choice: AllergenChoice): string[] {
  return CHOSEN[choice].map((list) => ALLERGEN_LISTS[list].source);
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
  const cereals: readonly Allergen[] = ["wheat", "cereals containing gluten"];
  const saidAsCereal = (allergen: Allergen): boolean =>
    allergen === "cereals containing gluten" && told.includes("wheat");
  const besides = all.filter((allergen) => !told.includes(allergen) && !saidAsCereal(allergen));
  const named = besides.map((allergen) =>
    cereals.includes(allergen) && told.includes("cereals containing gluten")
      ? `${allergen} among them`
      : allergen,
  );
  return { told, besides: [...named, ...others] };
}
