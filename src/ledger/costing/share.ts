import type { Counting, Part, PartWeight } from "../../kitchen/index.js";
import { type Money, NO_MONEY, splitByShares, type Weight } from "../../quantity/index.js";
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
 * Shares a cost by what the parts count for. Where none was given, the loss bears it, so that it follows the weight to
 * wherever that goes. An output of no weight cannot bear a cost: a LedgerError.
 */
export function shareCost(
  cost: Money,
  { parts, loss }: Output,
  counts: Counting,
  partNamed: (name: string) => Part,
): OutputCosts {
  const given = parts.map(({ part, weight }) => ({ part: partNamed(part), weight }));
  const count = counts(given.flatMap(({ part, weight }) => (weight > 0n ? [part] : [])));
  const shares = given.map(({ part, weight }) => weight * count(part));
  if (shares.some((share) => share > 0n)) return { parts: splitByShares(cost, shares), loss: NO_MONEY };
  if (loss === 0n && cost !== 0n) throw nowhereToGo("an output without weight", cost);
  return { parts: parts.map(() => NO_MONEY), loss: cost };
}
