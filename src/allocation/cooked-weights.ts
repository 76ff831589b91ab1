import type { Cooking, Going, Scenario } from "../kitchen/index.js";
import { Decimal, NO_WEIGHT, plus, scale, splitByShares, total, type Weight } from "../quantity/index.js";

/** What the portions of a cooking weigh by where they go, in the order in which it names them. */
export interface PortionWeights {
  readonly served: readonly Weight[];
  readonly spare: readonly Weight[];
}

/**
 * The weight of a cooking by portions, as the ledger splits it: lines stated raw count raw, those stated cooked count
 * cooked, each rounded once, and what is left of rounding goes by largest remainder.
 */
export function portionWeights(
  cooking: Cooking,
  goings: readonly Going[],
  { dishes }: Scenario,
): PortionWeights {
  const lines = dishes.find(({ name }) => name === cooking.dish)?.lines ?? [];
  const whole = lines.reduce((sum, line, index) => {
    const raw = total(
      goings.filter((going) => isInto(going, cooking) && going.line === index).map(({ weight }) => weight),
    );
    return plus(sum, line.stated === "cooked" ? scale(raw, line.cookingYield) : raw);
  }, NO_WEIGHT);
  const ways = [...cooking.served, ...cooking.spare];
  const weights =
    cooking.portions === 0
      ? ways.map(() => NO_WEIGHT)
      : splitByShares(
          whole,
          ways.map(({ portions }) => new Decimal(Math.max(0, portions))),
        );
  return { served: weights.slice(0, cooking.served.length), spare: weights.slice(cooking.served.length) };
}

export function isInto(going: Going, { dish, service }: Pick<Cooking, "dish" | "service">): boolean {
  return going.dish === dish && going.service === service;
}
