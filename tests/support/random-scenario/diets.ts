import type { DietCovers, Dish, Scenario, Service } from "../../../src/kitchen/index.js";
import type { Dice } from "./dice.js";

/** Now and then more people with diets, apart or with two at once, and dishes that are fit for one or both. */
export function withMoreDiets(scenario: Scenario, dice: Dice): Scenario {
  if (!dice.chance(15)) return scenario;
  const dishes = scenario.dishes.map((dish): Dish => {
    const isVegetarian = dish.diets.length > 0 || dice.chance(40);
    return {
      ...dish,
      diets: [...(isVegetarian ? ["vegetarian"] : []), ...(dice.chance(60) ? ["gluten free"] : [])],
    };
  });
  const services = scenario.services.map((service, index): Service => {
    const offered = dishes.filter((dish) => dish.services.includes(index));
    return { ...service, diets: [...service.diets, ...others(service, offered, dice)] };
  });
  return { ...scenario, dishes, services };
}

/** People of other diets, never more than there are covers; nearly always, some dish is fit for them. */
function others(service: Service, offered: readonly Dish[], dice: Dice): DietCovers[] {
  const asked = dice.oneOf(
    [["gluten free"]],
    [["gluten free"], ["vegetarian"]],
    [["gluten free", "vegetarian"], ["vegetarian"]],
    [["gluten free"], ["vegetarian"], ["gluten free", "vegetarian"]],
  );
  let left = service.covers - service.diets.reduce((sum, { covers }) => sum + covers, 0);
  return asked.flatMap((diets): DietCovers[] => {
    const covers = Math.min(left, dice.between(1, 2));
    const isThere = service.diets.some((other) => other.diets.join() === diets.join());
    const isCookedFor = offered.some((dish) => diets.every((diet) => dish.diets.includes(diet)));
    if (covers <= 0 || isThere || (!isCookedFor && !dice.chance(10))) return [];
    left -= covers;
    return [{ diets, covers }];
  });
}
