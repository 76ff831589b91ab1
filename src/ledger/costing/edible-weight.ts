import type { PartClass, PartWeight } from "../../kitchen/index.js";
import { type Money, NO_MONEY, NO_WEIGHT, splitByShares, type Weight } from "../../quantity/index.js";
import { nowhereToGo } from "../errors.js";

/** What a cut or a step gave. */
export interface Output {
  readonly parts: readonly PartWeight[];
  readonly loss: Weight;
}

/** How a cost is shared among what a cut or a step gave, in the order of its parts. */
export interface OutputCosts {
  readonly parts: readonly Money[];
  /** Nothing, unless the output is nothing but loss. */
  readonly loss: Money;
}

/**
 * Shares a cost by edible weight: the food-class parts bear it by weight, the inedible ones and the loss
 * nothing. Where a cut gives no food at all (bones bought for the pot), the inedible parts bear it instead, then
 * the never-eat parts, then the loss, so that it follows the weight to wherever that goes. An output of no
 * weight cannot bear a cost: a LedgerError.
 */
export function byEdibleWeight(
  cost: Money,
  { parts, loss }: Output,
  classOf: (part: string) => PartClass,
): OutputCosts {
  for (const bearing of ["food", "inedible", "never"]) {
    const shares = parts.map(({ part, weight }) => (classOf(part) === bearing ? weight : NO_WEIGHT));
    if (shares.some((share) => share > 0n)) return { parts: splitByShares(cost, shares), loss: NO_MONEY };
  }
  if (loss === 0n && cost !== 0n) throw nowhereToGo("an output without weight", cost);
  return { parts: parts.map(() => NO_MONEY), loss: cost };
}
