import type { Scenario } from "../kitchen/index.js";
import { Decimal, ONE, ZERO } from "../quantity/index.js";

/**
 * Grams before working that a gram of a part stands for in the limit of a destination: of what steps make, the weight
 * that the step's food was made of, down the chain, and never less than its own. Where several steps make a part, the
 * one that loses most counts, so that working what is over makes no room. What can be had without a step is its own
 * weight: a step makes no more of it than is used.
 */
export function weightBeforeWorking(part: string, scenario: Scenario): Decimal {
  if (isHadUnworked(part, scenario)) return ONE;
  return scenario.steps
    .filter(({ yields }) => yields.some((made) => made.part === part))
    .reduce((most, { from, yields }) => {
      const food = yields
        .filter((made) => isFood(made.part, scenario))
        .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
      if (food.isZero()) return most;
      const sources = from.map((source) => weightBeforeWorking(source, scenario).div(food));
      return Decimal.max(most, ...sources);
    }, ONE);
}

function isHadUnworked(part: string, { items, partsOnHand }: Scenario): boolean {
  return (
    partsOnHand.some((stock) => stock.part === part) ||
    items.some(({ breakdowns }) =>
      breakdowns.some(({ yields }) => yields.some((given) => given.part === part)),
    )
  );
}

function isFood(part: string, { parts }: Scenario): boolean {
  return parts.some(({ name, class: kind }) => name === part && kind === "food");
}
