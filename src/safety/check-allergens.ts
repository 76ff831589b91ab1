import type { Dish, Scenario } from "../kitchen/index.js";
import { type Allergen, allergenLists, allergensNamed } from "./allergens.js";
import { allergensOfDish, mayContain, undeclaredAllergens } from "./carry.js";
import type { SafetyBlock, Warning } from "./findings.js";
import { fold } from "./names/fold.js";

/** The laws of all lists, whichever the kitchen chose. */
function lawsOfLists(): string {
  return allergenLists()
    .map(({ source }) => source)
    .join("; ");
}

/** Dishes said to be fit for a diet without an allergen they carry. */
export function falseClaims(scenario: Scenario): SafetyBlock[] {
  return scenario.dishes.flatMap((dish) =>
    dish.diets.flatMap((diet) => {
      const carried = allergensOfDish(scenario, dish).allergens;
      const traces = mayContain(scenario, dish).allergens;
      return excludedBy(diet).flatMap((allergen) => {
        if (carried.includes(allergen)) return [claim(dish, diet, `carries ${allergen}`)];
        return traces.includes(allergen) ? [claim(dish, diet, `may contain ${allergen}`)] : [];
      });
    }),
  );
}

/** Allergens a dish carries by the names of what goes into it, declared nowhere. */
export function undeclared(scenario: Scenario): Warning[] {
  return scenario.dishes.flatMap((dish) => {
    const missing = undeclaredAllergens(scenario, dish);
    if (missing.length === 0) return [];
    const source = lawsOfLists();
    const text = `${dish.name} carries ${missing.join(", ")} by the names of what goes into it: an allergen. State it under allergens, or rename what does not hold it. Source: ${source}.`;
    return [{ code: "allergen-undeclared", text, source, part: null, dish: dish.name }];
  });
}

/** "mit Milch" is no diet without it, nor is "eats fish"; an allergen named in any other way is left out. */
const TAKES_IT = /^(?:with|eats|takes|mit|avec|con|com|met|med) |\b(?:eater|only)s?$/;
const SUFFIX = /(?<=\p{L}) ?(?:frei|free|freie|vrij|vrije|fri|fritt|fria)\b/gu;
const COELIAC = /\b(?:c(?:o?e)liac|coliac|zoliakie|celiac\w*|coeliac\w*|zoliak\w*|sprue)\b/;

/** The allergens a diet leaves out: "without milk", "no nuts", "gluten-free", "glutenfrei", "egg allergy". */
function excludedBy(diet: string): Allergen[] {
  const folded = fold(diet);
  if (TAKES_IT.test(folded)) return [];
  const named = allergensNamed(folded.replace(SUFFIX, ""));
  if (COELIAC.test(folded)) named.push("cereals containing gluten");
  return folded.includes("nut") && named.includes("tree nuts") ? [...named, "peanuts"] : named;
}

function claim(dish: Dish, diet: string, holds: string): SafetyBlock {
  const source = lawsOfLists();
  const text = `${dish.name} is said to be "${diet}" and ${holds}: an allergen. Source: ${source}.`;
  return { code: "allergen-claim", text, source, part: null, dish: dish.name };
}
