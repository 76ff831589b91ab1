import type { Decision, Destination, Scenario } from "../kitchen/index.js";
import { type Decimal, ONE, total, ZERO } from "../quantity/index.js";
import { weightBeforeWorking } from "../waste/index.js";
import { portionWeights } from "./cooked-weights.js";

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
