import { ALLERGEN_FOODS } from "./names/allergens.js";
import { ANIMALS } from "./names/animals.js";
import { HARMLESS } from "./names/harmless.js";
import { makeLexicon } from "./names/lexicon.js";

type Kind = "meat" | "seafood" | "egg" | "dairy" | "plant";

/** Beside what the tables of hazards and allergens hold, from memory. */
const MEAT =
  "meat, mince, minced meat, ham, bacon, gammon, sausage, salami, chorizo, prosciutto, pancetta, lardon, lard, suet, dripping, gelatine, gelatin, " +
  "rabbit, hare, venison, deer, boar, game, pheasant, partridge, grouse, ostrich, horse meat, offal, giblet, oxtail, sweetbread, black pudding, " +
  "Fleisch, Hackfleisch, Schinken, Speck, Wurst, Kaninchen, viande, jambon, lapin, carne, jamon, conejo, coniglio, presunto, vlees, kött";
const DAIRY =
  "milk, cream, yoghurt, yogurt, curd, quark, fresh cheese, cream cheese, cottage cheese, ricotta, mascarpone, mozzarella, brie, camembert, " +
  "Milch, Sahne, Joghurt, lait, creme, yaourt, leche, nata, latte, panna, leite, melk, mjölk";
const PLANTS =
  "beefsteak tomato, chicken of the woods, hen of the woods, lamb s lettuce, goosefoot, game chip, eggplant, egg plant";

const NAMES: Readonly<Record<Kind, string>> = {
  meat: [ANIMALS.beef, ANIMALS.veal, ANIMALS.sheep, ANIMALS.lamb, ANIMALS.pig, ANIMALS.poultry, MEAT].join(),
  seafood: [ALLERGEN_FOODS.fish, ALLERGEN_FOODS.crustaceans, ALLERGEN_FOODS.molluscs].join(),
  egg: ANIMALS.egg,
  dairy: DAIRY,
  plant: [HARMLESS, ALLERGEN_FOODS.harmless, PLANTS].join(),
};
const KINDS = ["meat", "seafood", "egg", "dairy", "plant"] as const;

const lexicon = makeLexicon<{ kind: "item"; key: Kind }>(
  KINDS.map((key) => ({
    meanings: [{ kind: "item", key }],
    names: NAMES[key],
    ...(key === "plant" ? { spelt: "exactly" as const } : {}),
  })),
);

/** The kinds of food of animals that a name speaks of. */
export function animalKindsIn(name: string): Exclude<Kind, "plant">[] {
  const keys = lexicon.read(name).found.flatMap(({ meanings }) => meanings.map(({ key }) => key));
  return [...new Set(keys)].flatMap((key) => (key === "plant" ? [] : [key]));
}
