import type { Dish, Scenario } from "../kitchen/index.js";
import { itemsIn } from "./carry.js";
import type { SafetyBlock, Warning } from "./findings.js";
import type { Lineage } from "./lineage.js";
import { fold } from "./names/fold.js";

const REPLACE = "FDA Food Code 3-302.13 (Washington WAC 246-215-03312)";
const SUSCEPTIBLE = "FDA Food Code 3-801.11 (Louisiana LAC 51:XXIII.1911; Montana ARM 37.110)";

/** Dishes the Food Code names for raw egg. */
const RAW_EGG_DISHES =
  /caesar|hollandaise|bearnaise|mayonnaise|mayo|aioli|meringue|egg ?nog|ice cream|mousse|tiramisu|tartare/;

/** Raw or lightly cooked egg, where people who fall ill easily are fed. */
export function eggBlocks(scenario: Scenario): SafetyBlock[] {
  if (!scenario.vulnerableDiners) return [];
  return scenario.dishes
    .filter(({ rawEgg }) => rawEgg)
    .map(({ name }) => ({
      code: "raw-egg",
      text: `${name} holds raw or lightly cooked egg: Salmonella. Not served to people who fall ill easily; use pasteurised egg or cook it through. Source: ${SUSCEPTIBLE}.`,
      source: SUSCEPTIBLE,
      part: null,
      dish: name,
    }));
}

/** The advisory for raw egg, and a question where a dish that is usually made with it does not say. */
export function eggAdvice(scenario: Scenario, lineage: Lineage): Warning[] {
  return scenario.dishes.flatMap((dish): Warning[] => {
    if (dish.rawEgg && scenario.vulnerableDiners) return [];
    const raw = `${dish.name} holds raw or lightly cooked egg: Salmonella. Use pasteurised egg, or tell guests on the menu that it is raw and that raw egg can make them ill.`;
    const asked = `${dish.name} is a dish often made with raw egg: Salmonella. If its egg is raw or lightly cooked, state "raw_egg: yes"; pasteurised egg is the safe choice.`;
    if (!dish.rawEgg && !(RAW_EGG_DISHES.test(fold(dish.name)) && holdsEgg(dish, lineage))) return [];
    const text = `${dish.rawEgg ? raw : asked} Source: ${REPLACE}.`;
    return [{ code: "raw-egg", text, source: REPLACE, part: null, dish: dish.name }];
  });
}

function holdsEgg(dish: Dish, lineage: Lineage): boolean {
  return itemsIn(dish, lineage).some(({ handling }) => handling === "egg");
}
