import { type Decimal, ZERO } from "../quantity/index.js";
import {
  type ByProduct,
  costsOfProduct,
  creditsOf,
  type ProductCosts,
  refuseBelowZero,
  refuseGap,
} from "./card-figures.js";

/** A weighing of one item cut down to a usable part, all weights in one unit and prices for that unit. */
export interface ButchersTest {
  readonly apWeight: Decimal;
  /** AP price of one unit of weight. */
  readonly apPrice: Decimal;
  /** Everything cut off; what cannot be used or sold has a price of 0. */
  readonly byProducts: readonly ByProduct[];
  readonly cuttingLoss: Decimal;
  /** What the weighings miss of the AP weight by the steps of the scale; below zero where they are over. */
  readonly cuttingDifference?: Decimal;
  readonly usableWeight: Decimal;
  /** Weight of one portion of the usable part; null where it is not portioned. */
  readonly portionWeight: Decimal | null;
}

export interface ButchersTestResult extends Omit<ProductCosts, "cost" | "price"> {
  /** What each by-product is credited with, in their order. */
  readonly credits: readonly Decimal[];
  /** AP cost less the credits: what the usable part bears. */
  readonly usableCost: Decimal;
  readonly usablePrice: Decimal;
  /** Parts of the AP weight: by-products in their order, then losses and usable. They add up to one. */
  readonly fractions: {
    readonly byProducts: readonly Decimal[];
    readonly cuttingLoss: Decimal;
    readonly cuttingDifference: Decimal;
    readonly usable: Decimal;
  };
}

/**
 * The butcher's test card: by-products are credited at their market price, the usable part bears the rest of the
 * AP cost. Nothing is rounded. A RangeError where the weights do not add up to the AP weight, a weight or price
 * is below zero, the usable part or the AP cost is nothing, or the credits are above the AP cost.
 * Source of the method: the trade's butcher test card, common practice.
 */
export function butchersTest(test: ButchersTest): ButchersTestResult {
  const { apWeight, apPrice, byProducts, cuttingLoss, usableWeight, portionWeight } = test;
  refuseWrongFigures(test);
  const credits = creditsOf(byProducts);
  const usable = { apWeight, apPrice, weight: usableWeight, portionWeight };
  const { cost: usableCost, price: usablePrice, ...costs } = costsOfProduct(usable, credits);
  return {
    ...costs,
    credits,
    usableCost,
    usablePrice,
    fractions: {
      byProducts: byProducts.map(({ weight }) => weight.div(apWeight)),
      cuttingLoss: cuttingLoss.div(apWeight),
      cuttingDifference: (test.cuttingDifference ?? ZERO).div(apWeight),
      usable: usableWeight.div(apWeight),
    },
  };
}

function refuseWrongFigures({
  apWeight,
  byProducts,
  cuttingLoss,
  cuttingDifference = ZERO,
  usableWeight,
}: ButchersTest): void {
  const weights = [...byProducts.map(({ weight }) => weight), cuttingLoss, usableWeight];
  refuseBelowZero([...weights, ...byProducts.map(({ price }) => price)]);
  if (!usableWeight.greaterThan(0)) throw new RangeError("nothing usable came out of the test");
  refuseGap(apWeight, [...weights, cuttingDifference], "the parts and the loss must add up to the AP weight");
}
