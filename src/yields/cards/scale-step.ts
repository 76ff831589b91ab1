import { Decimal, grams, type Weight, ZERO } from "../../quantity/index.js";
import type { CardTest, CardUnit, CookingCardTest } from "./card.js";

/** The smallest weight that a scale shows where none is stated: a gram, or a quarter of an ounce. */
export function usualStep(unit: CardUnit): Decimal {
  return unit.name === "kg" ? new Decimal(1) : unit.grams.div(64);
}

/** The step to show weights to: the scale's, or a finer one where a weight was written finer, so that none is rounded away. */
export function shownStep(
  step: Decimal,
  { name, grams: size }: CardUnit,
  weights: readonly Decimal[],
): Weight {
  const finest = name === "kg" ? new Decimal("0.001") : size.div(1600);
  const finer = name === "kg" ? [new Decimal(1), new Decimal("0.1")] : [];
  const fits = [step, ...finer].find((each) => weights.every((weight) => weight.mod(each).isZero()));
  return grams(fits ?? finest);
}

/** All that was weighed in a test, and its portion. */
export function weightsOfTest(test: CardTest | CookingCardTest | null): Decimal[] {
  if (test === null) return [];
  const { byProducts, cuttingLoss, productWeight, portionWeight } = test;
  const cooked = "carved" in test ? [test.rawWeight, test.cookedWeight, test.carvingLoss] : [];
  const carved = "carved" in test ? test.carved : [];
  return [
    ...[...byProducts, ...carved].map(({ weight }) => weight),
    ...[cuttingLoss, productWeight, portionWeight ?? ZERO, ...cooked],
  ];
}
