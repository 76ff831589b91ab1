import type { Dish, Scenario } from "../kitchen/index.js";
import {
  allergensOfDish,
  allergensOfPart,
  type Carried,
  guestAllergens,
  mayContain,
} from "../safety/index.js";
import { capital, listed } from "./writing.js";

/** "Milk and celery. May contain: fish". All that any part allowed in the dish may carry, not only what is put in. */
export function allergenWords(dish: Dish, scenario: Scenario): string {
  const made = words(allergensOfDish(scenario, dish), scenario);
  const may = words(mayContain(scenario, dish), scenario);
  return [capital(made), may === "" ? "" : `May contain: ${may}`].filter((text) => text !== "").join(". ");
}

/** The same of a part, of what it is made of only. */
export function partAllergenWords(part: string, scenario: Scenario): string {
  return words(allergensOfPart(scenario, part), scenario);
}

function words(carried: Carried, { allergenList }: Scenario): string {
  const { told, besides } = guestAllergens(carried, allergenList);
  return listed([...told, ...besides]);
}
