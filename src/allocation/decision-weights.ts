import type { Cooking, Decision, Destination, PartUse, Scenario } from "../kitchen/index.js";
import {
  Decimal,
  NO_WEIGHT,
  ONE,
  plus,
  scale,
  splitByShares,
  total,
  type Weight,
  ZERO,
} from "../quantity/index.js";
import { weightBeforeWorking } from "../waste/index.js";

/** How many portions of what go where, whatever the places are called. */
type PortionsOf = Pick<Cooking, "dish" | "service" | "portions"> &
  Readonly<Record<"served" | "spare", readonly { readonly portions: number }[]>>;

/**
 * The weight of a cooking by portions in each place, as the ledger splits it: lines stated raw count raw, those stated cooked count
 * cooked, each rounded once, and what is left of rounding goes by largest remainder.
 */
export function portionWeights(
  cooking: PortionsOf,
  goings: readonly PartUse[],
  { dishes }: Scenario,
): { readonly served: readonly Weight[]; readonly spare: readonly Weight[] } {
  const lines = dishes.find(({ name }) => name === cooking.dish)?.lines ?? [];
  const whole = lines.reduce((sum, line, index) => {
    const raw = totalWeight(goings.filter((going) => isInto(going, cooking) && going.line === index));
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

/** What things that have a weight weigh together. */
export function totalWeight(list: readonly { readonly weight: Weight }[]): Weight {
  return total(list.map(({ weight }) => weight));
}

/** A dish cooked for a service. */
type Site = Pick<Cooking, "dish" | "service">;

/** Whether a use of a part is in a cooking. */
export function isInto(going: Site, { dish, service }: Site): boolean {
  return going.dish === dish && going.service === service;
}

/**
 * Milligrams that a destination takes, as its limit counts them: of what is given away the weight before working, and
 * portions at what they weigh.
 */
export function takenBy({ name, end }: Destination, decision: Decision, scenario: Scenario): Decimal {
  const parts = decision.sends
    .filter(({ destination }) => destination === name)
    .map(({ lot, weight }) => {
      const each = end === "given away" ? weightBeforeWorking(lot, scenario) : ONE;
      return each.times(weight.toString());
    });
  const portions = decision.cookings.flatMap((cooking) =>
    portionWeights(cooking, decision.goings, scenario).spare.filter(
      (_, index) => cooking.spare[index]?.destination === name,
    ),
  );
  return parts.reduce((sum, weight) => sum.plus(weight), ZERO).plus(total(portions).toString());
}
