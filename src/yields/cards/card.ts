import type { PriceForWeight } from "../../kitchen/index.js";
import { coinOf, Decimal, grams, toCoins, type Weight, ZERO } from "../../quantity/index.js";
import type { ByProduct } from "./test-sums.js";

/** A butcher's test, a cooking-loss test or both of one joint, checked: weights close, credits are below the cost. */
export interface TestCard {
  readonly item: string;
  readonly grade: string | null;
  readonly supplier: string | null;
  readonly date: string | null;
  readonly testedBy: string | null;
  readonly currency: string;
  readonly locale: string;
  /** What weights are shown to: the scale's step, or a finer one where a weight is written finer. */
  readonly scaleStep: Weight;
  /** What prices are for: the unit of the AP price. */
  readonly unit: CardUnit;
  /** In exact grams, like all weights of a card, so that pounds and ounces close too. */
  readonly apWeight: Decimal;
  /** For one unit, like all prices of a card. */
  readonly apPrice: Decimal;
  /** A later AP price. */
  readonly newPrice: Decimal | null;
  readonly butchers: CardTest | null;
  readonly cooking: CookingCardTest | null;
}

/** A test as carried out on what was bought. */
export interface CardTest {
  /** What the test is about: the usable part, or what is served. */
  readonly product: string;
  readonly productWeight: Decimal;
  readonly byProducts: readonly ByProduct[];
  readonly cuttingLoss: Decimal;
  /** What the steps of the scale hide of the AP weight; below zero where the parts weigh more. */
  readonly cuttingDifference: Decimal;
  readonly portionWeight: Decimal | null;
}

export interface CookingCardTest extends CardTest {
  readonly method: string | null;
  readonly rawWeight: Decimal;
  readonly cookedWeight: Decimal;
  readonly carved: readonly ByProduct[];
  readonly carvingLoss: Decimal;
  /** The same of the cooked weight. */
  readonly carvingDifference: Decimal;
}

export interface CardUnit {
  readonly name: "kg" | "lb";
  readonly grams: Decimal;
}

const KILOGRAM: CardUnit = { name: "kg", grams: new Decimal(1000) };
/** International avoirdupois pound: 453.59237 g exactly (NIST Handbook 44, appendix C; from memory). */
const POUND: CardUnit = { name: "lb", grams: new Decimal("453.59237") };

/** The unit that a price is in: pounds where it is for pounds or ounces, else kilograms. */
export function unitOf(price: PriceForWeight): CardUnit {
  return /\b(?:lbs?|pounds?|oz|ounces?)\b/.test(price.name) ? POUND : KILOGRAM;
}

/** What a price comes to for one unit. */
export function priceIn(price: PriceForWeight, unit: CardUnit): Decimal {
  return price.amount.times(unit.grams.div(price.grams));
}

/** What so many grams at a price for one unit come to, to the nearest coin, as on a till. */
export function inCoins(grams: Decimal, price: Decimal, unit: CardUnit, currency: string): Decimal {
  return toCoins(grams.times(price).div(unit.grams), coinOf(currency));
}

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
