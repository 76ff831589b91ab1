import type { Dish, Item, Part, Scenario } from "../kitchen/index.js";
import {
  type Allergen,
  allergensOfAnimals,
  allergensOfItem,
  canonicalAllergen,
  complete,
} from "./allergens.js";
import { type Lineage, lineageOf } from "./lineage.js";
import { fold } from "./names/fold.js";

/** What a part or dish carries: allergens of the two lists, and what else the kitchen declares, word for word. */
export interface Carried {
  readonly allergens: readonly Allergen[];
  readonly others: readonly string[];
}

/**
 * The allergens of a part: declared for it, for its item and for every part it is made of, and those their
 * names carry. A stock of celery trim keeps its celery.
 */
export function allergensOfPart(scenario: Scenario, partName: string): Carried {
  return gather(wordsOfPart(lineageOf(scenario), partName));
}

/** The allergens of a dish: its own, those of every part its lines allow, and those of its staples. */
export function allergensOfDish(scenario: Scenario, dish: Dish): Carried {
  const lineage = lineageOf(scenario);
  const fromLines = dish.lines.flatMap(({ from }) => from.map(({ part }) => wordsOfPart(lineage, part)));
  const fromStaples = dish.staples.map(({ name, allergens }) => ({
    declared: allergens,
    byName: allergensOfItem(name),
  }));
  return gather({ declared: dish.allergens, byName: [] }, ...fromStaples, ...fromLines);
}

/**
 * Allergens a dish may hold without being made of them: stated for it or for an item in it, and what the dishes it
 * shares equipment with hold or may hold. What it is made of is not said again.
 */
export function mayContain(scenario: Scenario, dish: Dish): Carried {
  const lineage = lineageOf(scenario);
  const shared = new Set(dish.shares.map(fold));
  const neighbours = scenario.dishes.filter(
    (other) => other !== dish && other.shares.some((name) => shared.has(fold(name))),
  );
  const stated = [dish, ...neighbours].flatMap((each) => [
    ...each.mayContain,
    ...itemsIn(each, lineage).flatMap((item) => item.mayContain),
  ]);
  const ofNeighbours = neighbours.map((other) => allergensOfDish(scenario, other));
  const may = gather({
    declared: [...stated, ...ofNeighbours.flatMap(({ others }) => others)],
    byName: ofNeighbours.flatMap(({ allergens }) => allergens),
  });
  const made = allergensOfDish(scenario, dish);
  return {
    allergens: may.allergens.filter((allergen) => !made.allergens.includes(allergen)),
    others: may.others.filter((word) => !made.others.includes(word)),
  };
}

/** Every form of every item that may go into a dish, through any number of steps. */
export function itemsIn(dish: Dish, lineage: Lineage): Item[] {
  return dish.lines
    .flatMap(({ from }) => from.flatMap(({ part }) => lineage.withSources(part)))
    .flatMap((part) => lineage.itemsOf(part));
}

/** The allergens a dish carries that no one has declared: known by the names of what goes into it alone. */
export function undeclaredAllergens(scenario: Scenario, dish: Dish): Allergen[] {
  const lineage = lineageOf(scenario);
  const declared = [
    ...dish.allergens,
    ...dish.staples.flatMap(({ allergens }) => allergens),
    ...dish.lines.flatMap(({ from }) => from.flatMap(({ part }) => wordsOfPart(lineage, part).declared)),
  ];
  const known = new Set(complete(declared.flatMap((word) => canonicalAllergen(word) ?? [])));
  return allergensOfDish(scenario, dish).allergens.filter((allergen) => !known.has(allergen));
}

interface AllergenWords {
  readonly declared: readonly string[];
  readonly byName: readonly Allergen[];
}

function wordsOfPart(lineage: Lineage, partName: string): AllergenWords {
  const words = lineage.withSources(partName).map((part) => ownWords(lineage, part));
  return {
    declared: words.flatMap(({ declared }) => declared),
    byName: words.flatMap(({ byName }) => byName),
  };
}

function ownWords(lineage: Lineage, part: Part): AllergenWords {
  const items = lineage.itemsOf(part);
  const byName = [part.name, ...items.map(({ name }) => name)].flatMap(allergensOfItem);
  const seafood = allergensOfAnimals("seafood");
  const isHandledAs = (wanted: Item["handling"]) => items.some(({ handling }) => handling === wanted);
  if (isHandledAs("egg")) byName.push("egg");
  if (isHandledAs("fish") && !byName.some((allergen) => seafood.includes(allergen))) byName.push("fish");
  return { declared: [...part.allergens, ...items.flatMap(({ allergens }) => allergens)], byName };
}

function gather(...words: readonly AllergenWords[]): Carried {
  const declared = words.flatMap((entry) => entry.declared);
  const known = declared.flatMap((word) => canonicalAllergen(word) ?? []);
  return {
    allergens: complete([...known, ...words.flatMap(({ byName }) => byName)]),
    others: [...new Set(declared.filter((word) => canonicalAllergen(word) === null))],
  };
}
