import { type Decimal, ZERO } from "../quantity/index.js";
import {
  type ByProduct,
  costsOfProduct,
  creditsOf,
  type ProductCosts,
  refuseBelowZero,
  refuseGap,
} from "./card-figures.js";

/**
 * A weighing of one item from the delivery to the plate: trimmed, cooked, carved. All weights in one unit, prices
 * for that unit. What nothing is cut off, or is not trimmed, has empty lists and a loss of 0.
 */
export interface CookingLossTest {
  readonly apWeight: Decimal;
  readonly apPrice: Decimal;
  /** Cut off before cooking. */
  readonly trimmed: readonly ByProduct[];
  readonly cuttingLoss: Decimal;
  /** What the weighings miss of the AP weight by the steps of the scale; below zero where they are over. */
  readonly cuttingDifference?: Decimal;
  /** What went into the oven or the pot. */
  readonly rawWeight: Decimal;
  readonly cookedWeight: Decimal;
  /** Bones, skin and ends taken off after cooking. */
  readonly carved: readonly ByProduct[];
  /** Crumbs and juice lost in carving. */
  readonly carvingLoss: Decimal;
  /** The same of the cooked weight. */
  readonly carvingDifference?: Decimal;
  readonly servedWeight: Decimal;
  /** Weight of one portion as served; null where it is not portioned. */
  readonly portionWeight: Decimal | null;
}

export interface CookingLossTestResult extends Omit<ProductCosts, "cost" | "price"> {
  /** What the by-products are credited with, in their order. */
  readonly credits: { readonly trimmed: readonly Decimal[]; readonly carved: readonly Decimal[] };
  /** AP cost less all credits: what the served weight bears. */
  readonly servedCost: Decimal;
  /** Cost after cooking of one unit of served weight. */
  readonly servedPrice: Decimal;
  /** Parts of the AP weight, in the order they leave it. They add up to one. */
  readonly fractions: {
    readonly trimmed: readonly Decimal[];
    readonly cuttingLoss: Decimal;
    readonly cuttingDifference: Decimal;
    /** Below zero where cooking takes up water. */
    readonly cookingLoss: Decimal;
    readonly carved: readonly Decimal[];
    readonly carvingLoss: Decimal;
    readonly carvingDifference: Decimal;
    readonly served: Decimal;
  };
  /** Cooked weight over raw weight. */
  readonly cookingYield: Decimal;
}

/**
 * The cooking-loss test card, for any item: what is served bears the AP cost less what the by-products before and
 * after cooking are worth. Nothing is rounded. A RangeError where the trimmed weights do not add up to the AP
 * weight or the carved ones to the cooked weight, a figure is below zero, nothing is served, the AP price is not
 * above zero, or the credits are above the AP cost. Source of the method: the trade's cooking-loss test card,
 * common practice; cards without credits are the case of every by-product at a price of 0.
 */
export function cookingLossTest(test: CookingLossTest): CookingLossTestResult {
  refuseWrongFigures(test);
  const { apWeight, apPrice, trimmed, carved, rawWeight, cookedWeight, servedWeight, portionWeight } = test;
  const credits = { trimmed: creditsOf(trimmed), carved: creditsOf(carved) };
  const served = { apWeight, apPrice, weight: servedWeight, portionWeight };
  const all = [...credits.trimmed, ...credits.carved];
  const { cost: servedCost, price: servedPrice, ...costs } = costsOfProduct(served, all);
  const ofAp = (weight: Decimal) => weight.div(apWeight);
  return {
    ...costs,
    credits,
    servedCost,
    servedPrice,
    fractions: {
      trimmed: trimmed.map(({ weight }) => ofAp(weight)),
      cuttingLoss: ofAp(test.cuttingLoss),
      cuttingDifference: ofAp(test.cuttingDifference ?? ZERO),
      cookingLoss: ofAp(rawWeight.minus(cookedWeight)),
      carved: carved.map(({ weight }) => ofAp(weight)),
      carvingLoss: ofAp(test.carvingLoss),
      carvingDifference: ofAp(test.carvingDifference ?? ZERO),
      served: ofAp(servedWeight),
    },
    cookingYield: cookedWeight.div(rawWeight),
  };
}

function refuseWrongFigures(test: CookingLossTest): void {
  const weightsBefore = [...test.trimmed.map(({ weight }) => weight), test.cuttingLoss, test.rawWeight];
  const weightsAfter = [...test.carved.map(({ weight }) => weight), test.carvingLoss, test.servedWeight];
  const { cuttingDifference = ZERO, carvingDifference = ZERO } = test;
  const prices = [...test.trimmed, ...test.carved].map(({ price }) => price);
  refuseBelowZero([...weightsBefore, test.cookedWeight, ...weightsAfter, ...prices]);
  if (test.servedWeight.lte(ZERO)) throw new RangeError("nothing was served of the test");
  if (test.rawWeight.lte(ZERO)) throw new RangeError("nothing was cooked in the test");
  refuseGap(
    test.apWeight,
    [...weightsBefore, cuttingDifference],
    "trimmings, cutting loss and raw weight must make the AP weight",
  );
  refuseGap(
    test.cookedWeight,
    [...weightsAfter, carvingDifference],
    "carvings, carving loss and served must make the cooked weight",
  );
}
