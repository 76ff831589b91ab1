import type { Scenario } from "../../src/kitchen/index.js";
import { candidates } from "./brute-force/candidates.js";
import { sum } from "./brute-force/item-plans.js";
import { stapleCost } from "./brute-force/menus.js";
import { chargesOf } from "./brute-force/orders.js";
import { leastPartCost } from "./brute-force/part-cost.js";
import type { Rules } from "./brute-force/question.js";

/** What one plan wastes, in grams, and spends, in currency units. */
export interface FrontPoint {
  readonly waste: number;
  readonly spend: number;
}

/** Spend in ten-millionths of the currency unit, weighed so low that it only orders plans that waste alike. */
const SPEND_WEIGHT = 1e-10;
const UNIT = 1e7;
const ALIKE = 1e-6;

/**
 * Every plan of a small scenario that no other beats on waste and spend, by trying out all menus, purchases, cuts and
 * awkward amounts. It reads the scenario alone and shares nothing with the planner. What is kept must have no value
 * stated and no dish a ceiling: of two ways that cut alike, the one that buys less then wastes no more.
 */
export function bruteForceFront(scenario: Scenario, grain = 1): FrontPoint[] {
  const prices = { waste: 1, credit: 0 };
  const rules: Rules = { scenario, prices, ceilings: "real cost", grain };
  const front: FrontPoint[] = [];
  const isBeaten = ({ waste, spend }: FrontPoint): boolean =>
    front.some((other) => other.waste <= waste + ALIKE && other.spend <= spend + ALIKE);
  for (const { menu, plans, fixed, least } of candidates(
    { unit: 1, money: SPEND_WEIGHT, parts: prices },
    rules,
  )) {
    const paid =
      sum(plans.map((plan) => plan.spend)) +
      (chargesOf(plans, scenario) ?? 0) +
      sum(menu.cookings.map(({ dish, portions }) => stapleCost(dish, portions)));
    const spend = paid / UNIT;
    if (isBeaten({ waste: least - paid * SPEND_WEIGHT, spend })) continue;
    const parts = leastPartCost(menu, plans, rules);
    if (parts === null) continue;
    const point = { waste: fixed + parts - paid * SPEND_WEIGHT, spend };
    if (isBeaten(point)) continue;
    const kept = front.filter(
      (other) => other.waste < point.waste - ALIKE || other.spend < point.spend - ALIKE,
    );
    front.splice(0, front.length, ...kept, point);
  }
  return front.sort((one, other) => one.waste - other.waste);
}
