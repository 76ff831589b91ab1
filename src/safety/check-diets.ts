import type { Dish, Scenario } from "../kitchen/index.js";
import { type Allergen, allergensOfAnimals } from "./allergens.js";
import { allergensOfDish, itemsIn } from "./carry.js";
import type { SafetyBlock } from "./findings.js";
import type { Lineage } from "./lineage.js";
import { fold } from "./names/fold.js";
import { animalKindsIn } from "./of-animals.js";

const SOURCE =
  "ISO 23662:2021, definitions of food for vegetarians and vegans, from memory; Food Standards Agency (UK), vegan is no allergen claim, from memory";

const VEGAN = /\b(?:vegan\w*|vegetalien\w*|plant based)\b/;
const VEGETARIAN = /\b(?:vegetari\w*|veggie)\b/;

/** Dishes said to be vegan or vegetarian that hold what neither takes. What they may hold by traces is no matter here. */
export function falseDiets(scenario: Scenario, lineage: Lineage): SafetyBlock[] {
  return scenario.dishes.flatMap((dish) =>
    dish.diets.flatMap((diet) => {
      const folded = fold(diet);
      const isVegan = VEGAN.test(folded);
      if (!isVegan && !VEGETARIAN.test(folded)) return [];
      const held = [
        ...new Set([
          ...flesh(dish, lineage),
          ...(isVegan ? others(scenario, dish) : seafood(scenario, dish)),
        ]),
      ];
      if (held.length === 0) return [];
      const text = `${dish.name} is said to be "${diet}" and holds ${held.join(", ")}. Source: ${SOURCE}.`;
      return [{ code: "diet-claim", text, source: SOURCE, part: null, dish: dish.name }];
    }),
  );
}

/** Meat, poultry and fish among its items, and meat among its staples by name. */
function flesh(dish: Dish, lineage: Lineage): string[] {
  const items = itemsIn(dish, lineage).filter(
    ({ handling, name, inTables }) =>
      ["meat", "poultry", "fish"].includes(handling) || (!inTables && animalKindsIn(name).includes("meat")),
  );
  const staples = dish.staples.filter(({ name }) => animalKindsIn(name).includes("meat"));
  return [...items, ...staples].map(({ name }) => name);
}

function seafood(scenario: Scenario, dish: Dish): Allergen[] {
  return allergensOfDish(scenario, dish).allergens.filter((allergen) =>
    allergensOfAnimals("seafood").includes(allergen),
  );
}

function others(scenario: Scenario, dish: Dish): Allergen[] {
  const ofAnimals = allergensOfAnimals("milk", "egg", "seafood");
  return allergensOfDish(scenario, dish).allergens.filter((allergen) => ofAnimals.includes(allergen));
}
