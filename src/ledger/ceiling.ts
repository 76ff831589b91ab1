import type { Scenario } from "../kitchen/index.js";
import { type Money, minus, times } from "../quantity/index.js";
import type { DishCost, Ledger } from "./ledger.js";

/** A cooking that costs more than its ceiling allows. */
export interface OverCeiling extends DishCost {
  /** Most a portion may cost. */
  readonly ceiling: Money;
  /** What all its portions together cost too much. */
  readonly excess: Money;
}

/** The cookings whose exact cost is above ceiling x portions cooked; empty when every dish keeps to its own. */
export function dishesOverCeiling(scenario: Scenario, ledger: Ledger): OverCeiling[] {
  const ceilings = new Map(scenario.dishes.map(({ name, ceiling }) => [name, ceiling]));
  return ledger.dishCosts.flatMap((cooking) => {
    const ceiling = ceilings.get(cooking.dish) ?? null;
    if (ceiling === null) return [];
    const excess = minus(cooking.cost, times(ceiling, cooking.portions));
    return excess > 0n ? [{ ...cooking, ceiling, excess }] : [];
  });
}
