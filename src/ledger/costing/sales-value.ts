import type { Part } from "../../kitchen/index.js";
import { Decimal, type Money, NO_MONEY, splitByShares, ZERO } from "../../quantity/index.js";
import { byEdibleWeight, type Output, type OutputCosts } from "./edible-weight.js";

/**
 * Shares a cut's cost by sales value at split-off: by weight x market value of every part that has one, sold,
 * used or thrown away alike; never-eat parts and parts without a value bear nothing. Where nothing the cut gave
 * is worth anything, by edible weight.
 */
export function bySalesValue(cost: Money, output: Output, partNamed: (name: string) => Part): OutputCosts {
  const shares = output.parts.map(({ part, weight }) => {
    const { class: kind, marketValue } = partNamed(part);
    return kind === "never" || marketValue === null ? ZERO : new Decimal((weight * marketValue).toString());
  });
  if (shares.every((share) => share.isZero()))
    return byEdibleWeight(cost, output, (part) => partNamed(part).class);
  return { parts: splitByShares(cost, shares), loss: NO_MONEY };
}
