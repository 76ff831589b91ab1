import type { Scenario } from "../../kitchen/index.js";
import { itemLevers, shopLevers, supplierLevers } from "./bought.js";
import { dishLevers, menuLevers } from "./dishes.js";
import { houseLevers, serviceLevers } from "./house.js";
import type { Lever } from "./lever.js";

export type { Change, Lever } from "./lever.js";

/**
 * Every figure the search for a smallest change may turn, in the order a cook would think of them: prices and
 * amounts down to half, as more is no small change; ceilings up to tenfold.
 */
export function leversOf(scenario: Scenario): Lever[] {
  return [
    ...scenario.dishes.flatMap((dish) => dishLevers(dish, scenario)),
    ...scenario.items.flatMap((item) => [...itemLevers(item, scenario), ...shopLevers(item, scenario)]),
    ...supplierLevers(scenario),
    ...serviceLevers(scenario),
    ...menuLevers(scenario),
    ...houseLevers(scenario),
  ];
}
