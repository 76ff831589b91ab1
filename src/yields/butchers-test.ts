import { Decimal, ZERO } from "../quantity/index.js";

/** A weighing of one item cut down to a usable part, all weights in one unit and prices for that unit. */
export interface ButchersTest {
  readonly apWeight: Decimal;
  /** AP price of one unit of weight. */
  readonly apPrice: Decimal;
  /** Everything cut off; what cannot be used or sold has a price of 0. */
  readonly byProducts: readonly {
    readonly name: string;
    readonly weight: Decimal;
    readonly price: Decimal;
  }[];
  readonly cuttingLoss: Decimal;
  readonly usableWeight: Decimal;
  /** Weight of one portion of the usable part; null where it is not portioned. */
  readonly portionWeight: Decimal | null;
}

export interface ButchersTestResult {
  readonly apCost: Decimal;
  /** What each by-product is credited with, in their order. */
  readonly credits: readonly Decimal[];
  /** AP cost less the credits: what the usable part bears. */
  readonly usableCost: Decimal;
  readonly usablePrice: Decimal;
  /** Parts of the AP weight: by-products in their order, then cutting loss and usable. They add up to one. */
  readonly fractions: {
    readonly byProducts: readonly Decimal[];
    readonly cuttingLoss: Decimal;
    readonly usable: Decimal;
  };
  readonly portionCost: Decimal | null;
  /** Usable price over AP price: times any new AP price it gives the new usable price. */
  readonly costFactor: Decimal;
  /** Portion cost over AP price. */
  readonly portionCostFactor: Decimal | null;
}

/**
 * The butcher's test card: by-products are credited at their market price, the usable part bears the rest of the
 * AP cost. Nothing is rounded. A RangeError where the weights do not add up to the AP weight, a weight or price
 * is below zero, the usable part or the AP cost is nothing, or the credits are above the AP cost.
 * Source of the method: the trade's butcher test card, common practice.
 */
export function butchersTest(test: ButchersTest): ButchersTestResult {
  const { apWeight, apPrice, byProducts, cuttingLoss, usableWeight, portionWeight } = test;
  const weights = [...byProducts.map(({ weight }) => weight), cuttingLoss, usableWeight];
  refuseWrongFigures(test, weights);
  const apCost = apWeight.times(apPrice);
  const credits = byProducts.map(({ weight, price }) => weight.times(price));
  const usableCost = apCost.minus(Decimal.sum(ZERO, ...credits));
  if (usableCost.isNegative())
    throw new RangeError(`credits exceed the AP cost by ${usableCost.neg().toFixed(2)}`);
  const usablePrice = usableCost.div(usableWeight);
  const portionCost = portionWeight === null ? null : usablePrice.times(portionWeight);
  return {
    apCost,
    credits,
    usableCost,
    usablePrice,
    fractions: {
      byProducts: byProducts.map(({ weight }) => weight.div(apWeight)),
      cuttingLoss: cuttingLoss.div(apWeight),
      usable: usableWeight.div(apWeight),
    },
    portionCost,
    costFactor: usablePrice.div(apPrice),
    portionCostFactor: portionCost === null ? null : portionCost.div(apPrice),
  };
}

function refuseWrongFigures(
  { apWeight, apPrice, byProducts }: ButchersTest,
  weights: readonly Decimal[],
): void {
  const usableWeight = weights.at(-1) ?? ZERO;
  if ([...weights, ...byProducts.map(({ price }) => price)].some((figure) => figure.isNegative()))
    throw new RangeError("a weight or price is below zero");
  if (!usableWeight.greaterThan(0)) throw new RangeError("nothing usable came out of the test");
  if (!apPrice.greaterThan(0)) throw new RangeError("the AP price is not above zero");
  const gap = apWeight.minus(Decimal.sum(...weights));
  if (!gap.isZero())
    throw new RangeError(
      `${gap.abs().toString()} of ${apWeight.toString()} is ${gap.isNegative() ? "too much" : "missing"}: the parts and the loss must add up to the AP weight`,
    );
}
