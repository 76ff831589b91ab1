import { type Lot, partHeld, type Scenario } from "../kitchen/index.js";
import { Decimal, ONE, ZERO } from "../quantity/index.js";
import { classesOf } from "./steps.js";

/**
 * Grams before working that a gram of a lot stands for in the limit of a destination: of what steps make, the weight
 * that the step's food was made of, down the chain, and never less than its own. Where several steps make a part, the
 * one that loses most counts, so that working what is over makes no room. What is cut or on hand as it is counts its
 * own weight: no more of it is made by a step than is used.
 */
export function weightBeforeWorking(lot: Lot, scenario: Scenario): Decimal {
  if (isHadUnworked(lot, scenario)) return ONE;
  const classOf = classesOf(scenario);
  return scenario.steps
    .filter(({ yields }) => yields.some((made) => made.part === lot.part))
    .reduce((most, { from, yields }) => {
      const food = yields
        .filter((made) => classOf(made.part) === "food")
        .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
      if (food.isZero()) return most;
      const sources = from.map((part) => weightBeforeWorking({ ...lot, part }, scenario).div(food));
      return Decimal.max(most, ...sources);
    }, ONE);
}

function isHadUnworked({ part, origin }: Lot, scenario: Scenario): boolean {
  const held = partHeld(origin, scenario);
  if (held !== undefined) return held === part;
  return scenario.items.some(({ breakdowns }) =>
    breakdowns.some(({ yields }) => yields.some((given) => given.part === part)),
  );
}
