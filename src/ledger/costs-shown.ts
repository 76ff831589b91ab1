import type { Decision, Lot, Scenario } from "../kitchen/index.js";
import { type Money, NO_MONEY, type Weight } from "../quantity/index.js";
import { dishesOverCeiling, type OverCeiling } from "./ceiling.js";
import type { Ledger } from "./ledger.js";

/** A cooking over its ceiling, with what the ledger charged it for each of its goings. */
export interface CostsShown extends OverCeiling {
  /** Raw weight and money. */
  readonly goings: readonly { readonly lot: Lot; readonly weight: Weight; readonly money: Money }[];
}

/** For every cooking over its ceiling, what its parts cost it. */
export function costsShown(scenario: Scenario, { goings }: Decision, ledger: Ledger): CostsShown[] {
  const costed = goings.map((going, index) => ({ ...going, money: ledger.goingCosts[index] ?? NO_MONEY }));
  return dishesOverCeiling(scenario, ledger).map((over) => ({
    ...over,
    goings: costed.filter(({ dish, service }) => dish === over.dish && service === over.service),
  }));
}
