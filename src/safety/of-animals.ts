import { lazily } from "./lazily.js";
import { makeLexicon, type Name } from "./names/lexicon.js";
import { safetyTables, wordList } from "./tables/load.js";

const KINDS = ["meat", "seafood", "egg", "dairy", "plant"] as const;
type Kind = (typeof KINDS)[number];

/** Beside what the tables of names and allergens hold. */
function namesOf(kind: Kind): readonly Name[] {
  const { names, allergens } = safetyTables();
  const items = names.flatMap((row) => (row.ofAnimals === kind ? row.names : []));
  if (kind === "meat") return [...items, ...wordList("meat")];
  if (kind === "seafood") return allergens.flatMap((row) => (row.ofAnimals === kind ? row.foods : []));
  if (kind === "dairy") return wordList("dairy");
  return kind === "egg"
    ? items
    : [...wordList("harmless"), ...wordList("no allergen"), ...wordList("plants")];
}

const lexicon = lazily(() =>
  makeLexicon<{ kind: "item"; key: Kind }>(
    KINDS.map((key) => ({
      meanings: [{ kind: "item", key }],
      names: namesOf(key),
      ...(key === "plant" ? { spelt: "exactly" as const } : {}),
    })),
  ),
);

/** The kinds of food of animals that a name speaks of. */
export function animalKindsIn(name: string): Exclude<Kind, "plant">[] {
  const keys = lexicon()
    .read(name)
    .found.flatMap(({ meanings }) => meanings.map(({ key }) => key));
  return [...new Set(keys)].flatMap((key) => (key === "plant" ? [] : [key]));
}
