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

/** AP cost less the credits. A RangeError where they are above it. */
export function costAfterCredits(apCost: Decimal, credits: readonly Decimal[]): Decimal {
  const left = apCost.minus(Decimal.sum(ZERO, ...credits));
  if (left.isNegative()) throw new RangeError(`credits exceed the AP cost by ${left.neg().toFixed(2)}`);
  return left;
}

/** A RangeError where a weight or price is below zero. */
export function refuseBelowZero(figures: readonly Decimal[]): void {
  if (figures.some((figure) => figure.isNegative() && !figure.isZero()))
    throw new RangeError("a weight or price is below zero");
}

/** A RangeError where the pieces do not add up to the whole, with what is missing or too much. */
export function refuseGap(whole: Decimal, pieces: readonly Decimal[], rule: string): void {
  const gap = whole.minus(Decimal.sum(ZERO, ...pieces));
  if (gap.isZero()) return;
  const direction = gap.isNegative() ? "too much" : "missing";
  throw new RangeError(`${gap.abs().toString()} of ${whole.toString()} is ${direction}: ${rule}`);
}
