import { Decimal, ZERO } from "../quantity/index.js";

/** A part cut off that is not what the test is about, at its market price; 0 where it can be neither used nor sold. */
export interface ByProduct {
  readonly name: string;
  readonly weight: Decimal;
  readonly price: Decimal;
}

/** What each by-product is credited with, in their order. */
export function creditsOf(byProducts: readonly ByProduct[]): Decimal[] {
  return byProducts.map(({ weight, price }) => weight.times(price));
}

/** What a test is about and what was paid, all weights in one unit and prices for that unit. */
export interface Product {
  readonly apWeight: Decimal;
  /** AP price of one unit of weight. */
  readonly apPrice: Decimal;
  readonly weight: Decimal;
  /** Weight of one portion; null where it is not portioned. */
  readonly portionWeight: Decimal | null;
}

export interface ProductCosts {
  readonly apCost: Decimal;
  /** AP cost less all credits. */
  readonly cost: Decimal;
  /** Of one unit of weight. */
  readonly price: Decimal;
  readonly portionCost: Decimal | null;
  /** Price over AP price: times any new AP price it gives the new price. */
  readonly costFactor: Decimal;
  /** Portion cost over AP price. */
  readonly portionCostFactor: Decimal | null;
}

/**
 * What the product, which weighs something, bears. Nothing is rounded. A RangeError where the AP price is not above
 * zero, or the credits are above the AP cost.
 */
export function costsOfProduct(
  { apWeight, apPrice, weight, portionWeight }: Product,
  credits: readonly Decimal[],
): ProductCosts {
  if (!apPrice.greaterThan(0)) throw new RangeError("the AP price is not above zero");
  const apCost = apWeight.times(apPrice);
  const cost = apCost.minus(Decimal.sum(ZERO, ...credits));
  if (cost.isNegative()) throw new RangeError(`credits exceed the AP cost by ${cost.neg().toFixed(2)}`);
  const price = cost.div(weight);
  const portionCost = portionWeight === null ? null : price.times(portionWeight);
  return {
    apCost,
    cost,
    price,
    portionCost,
    costFactor: price.div(apPrice),
    portionCostFactor: portionCost === null ? null : portionCost.div(apPrice),
  };
}

/** A RangeError where a weight or price is below zero. */
export function refuseBelowZero(figures: readonly Decimal[]): void {
  if (figures.some((figure) => figure.isNegative() && !figure.isZero()))
    throw new RangeError("a weight or price is below zero");
}

/** By what the pieces miss the whole; below zero where they are too much. */
export function gapOf(whole: Decimal, pieces: readonly Decimal[]): Decimal {
  return whole.minus(Decimal.sum(ZERO, ...pieces));
}

/** A RangeError where the pieces do not add up to the whole, with what is missing or too much. */
export function refuseGap(whole: Decimal, pieces: readonly Decimal[], rule: string): void {
  const gap = gapOf(whole, pieces);
  if (gap.isZero()) return;
  const direction = gap.isNegative() ? "too much" : "missing";
  throw new RangeError(`${gap.abs().toString()} of ${whole.toString()} is ${direction}: ${rule}`);
}
