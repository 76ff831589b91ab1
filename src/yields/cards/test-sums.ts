import { Decimal, ZERO } from "../../quantity/index.js";

/** A part cut off that is not what the test is about, at its market price; 0 where it can be neither used nor sold. */
export interface ByProduct {
  readonly name: string;
  readonly weight: Decimal;
  readonly price: Decimal;
}

/** What was bought for a test. All weights in one unit, prices for that unit; where nothing is lost, a loss of 0. */
interface Bought {
  readonly apWeight: Decimal;
  readonly apPrice: Decimal;
  readonly cuttingLoss: Decimal;
  /** What the weighings miss of the AP weight by the steps of the scale; below zero where they are over. */
  readonly cuttingDifference?: Decimal;
  /** Weight of one portion of what the test is about; null where it is not portioned. */
  readonly portionWeight: Decimal | null;
}

/** A weighing of one item cut down to a usable part. */
export interface ButchersTest extends Bought {
  /** Everything cut off. */
  readonly byProducts: readonly ByProduct[];
  readonly usableWeight: Decimal;
}

/** A weighing of one item from the delivery to the plate: trimmed, cooked, carved. */
export interface CookingLossTest extends Bought {
  /** Cut off before cooking. */
  readonly trimmed: readonly ByProduct[];
  /** What went into the oven or the pot. */
  readonly rawWeight: Decimal;
  readonly cookedWeight: Decimal;
  /** Bones, skin and ends taken off after cooking. */
  readonly carved: readonly ByProduct[];
  /** Crumbs and juice lost in carving. */
  readonly carvingLoss: Decimal;
  /** What the weighings miss of the cooked weight. */
  readonly carvingDifference?: Decimal;
  readonly servedWeight: Decimal;
}

/**
 * The butcher's test card: by-products are credited at their market price, the usable part bears the rest of the
 * AP cost. Fractions are of the AP weight. A RangeError for figures that no test can have.
 * Source of the method: the trade's butcher test card, common practice.
 */
export function butchersTest(test: ButchersTest) {
  const { byProducts, usableWeight: usable } = test;
  const cutting = cuttingOf(test, byProducts, usable, "the parts and the loss must add up to the AP weight");
  refuseBelowZero([cutting]);
  if (usable.lte(ZERO)) throw new RangeError("nothing usable came out of the test");
  refuseGap(cutting);
  const credits = creditsOf(byProducts);
  const { cost, price, ...costs } = costsOfProduct(test, usable, credits);
  const [products, cuttingLoss, cuttingDifference] = fractionsOf(cutting, test);
  return {
    ...costs,
    credits,
    usableCost: cost,
    usablePrice: price,
    fractions: { byProducts: products, cuttingLoss, cuttingDifference, usable: usable.div(test.apWeight) },
  };
}

/**
 * The cooking-loss test card: what is served bears the AP cost less what the by-products before and after cooking
 * are worth. Fractions are of the AP weight; a cooking loss is below zero where water is taken up. A RangeError as
 * above. Source of the method: the trade's cooking-loss test card, common practice.
 */
export function cookingLossTest(test: CookingLossTest) {
  const { trimmed, carved, rawWeight, cookedWeight, servedWeight: served } = test;
  const rule = "trimmings, cutting loss and raw weight must make the AP weight";
  const cutting = cuttingOf(test, trimmed, rawWeight, rule);
  const carving: Stage = {
    whole: cookedWeight,
    byProducts: carved,
    loss: test.carvingLoss,
    difference: test.carvingDifference ?? ZERO,
    rest: served,
    rule: "carvings, carving loss and served must make the cooked weight",
  };
  refuseBelowZero([cutting, carving]);
  if (served.lte(ZERO)) throw new RangeError("nothing was served of the test");
  if (rawWeight.lte(ZERO)) throw new RangeError("nothing was cooked in the test");
  refuseGap(cutting);
  refuseGap(carving);
  const credits = { trimmed: creditsOf(trimmed), carved: creditsOf(carved) };
  const { cost, price, ...costs } = costsOfProduct(test, served, [...credits.trimmed, ...credits.carved]);
  const [trimmings, cuttingLoss, cuttingDifference] = fractionsOf(cutting, test);
  const [carvings, carvingLoss, carvingDifference] = fractionsOf(carving, test);
  return {
    ...costs,
    credits,
    servedCost: cost,
    /** Cost after cooking of one unit of served weight. */
    servedPrice: price,
    /** In the order they leave the AP weight; together one. */
    fractions: {
      trimmed: trimmings,
      cuttingLoss,
      cuttingDifference,
      cookingLoss: rawWeight.minus(cookedWeight).div(test.apWeight),
      carved: carvings,
      carvingLoss,
      carvingDifference,
      served: served.div(test.apWeight),
    },
    cookingYield: cookedWeight.div(rawWeight),
  };
}

/** A whole taken apart on the scale. */
interface Stage {
  readonly whole: Decimal;
  readonly byProducts: readonly ByProduct[];
  readonly loss: Decimal;
  readonly difference: Decimal;
  /** What goes on from here. */
  readonly rest: Decimal;
  /** What must hold, in words. */
  readonly rule: string;
}

function cuttingOf(test: Bought, byProducts: readonly ByProduct[], rest: Decimal, rule: string): Stage {
  const { apWeight: whole, cuttingLoss: loss, cuttingDifference: difference = ZERO } = test;
  return { whole, byProducts, loss, difference, rest, rule };
}

/** What each by-product is credited with, in their order. */
export function creditsOf(byProducts: readonly ByProduct[]): Decimal[] {
  return byProducts.map(({ weight, price }) => weight.times(price));
}

/**
 * What the product, which weighs something, bears. Cost factors times any new AP price give the new price, or cost
 * of a portion. Nothing is rounded. A RangeError where the AP price is not above zero or the credits exceed the cost.
 */
function costsOfProduct(
  { apWeight, apPrice, portionWeight }: Bought,
  weight: Decimal,
  credits: readonly Decimal[],
) {
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

/** By-products in their order, loss and weighing difference of a stage, as parts of the AP weight. */
function fractionsOf({ byProducts, loss, difference }: Stage, { apWeight }: Bought) {
  const products = byProducts.map(({ weight }) => weight.div(apWeight));
  return [products, loss.div(apWeight), difference.div(apWeight)] as const;
}

/** A RangeError where a weight or price is below zero. */
function refuseBelowZero(stages: readonly Stage[]): void {
  const figures = stages.flatMap(({ whole, byProducts, loss, rest }) => [
    ...[whole, loss, rest],
    ...byProducts.flatMap(({ weight, price }) => [weight, price]),
  ]);
  if (figures.some((figure) => figure.isNegative() && !figure.isZero()))
    throw new RangeError("a weight or price is below zero");
}

/** By what the pieces miss the whole; below zero where they are too much. */
export function gapOf(whole: Decimal, pieces: readonly Decimal[]): Decimal {
  return whole.minus(Decimal.sum(ZERO, ...pieces));
}

/** A RangeError where the pieces do not add up to the whole, with what is missing or too much. */
function refuseGap({ whole, byProducts, loss, difference, rest, rule }: Stage): void {
  const gap = gapOf(whole, [...byProducts.map(({ weight }) => weight), loss, difference, rest]);
  if (gap.isZero()) return;
  const direction = gap.isNegative() ? "too much" : "missing";
  throw new RangeError(`${gap.abs().toString()} of ${whole.toString()} is ${direction}: ${rule}`);
}

/** The whole portions in a usable weight, and what is left over. A RangeError for a portion that weighs nothing. */
export function portionsIn(usableWeight: Decimal, portionWeight: Decimal) {
  refuseNothing(portionWeight, "the portion");
  const count = usableWeight.div(portionWeight).floor();
  return { count: count.toNumber(), leftOver: usableWeight.minus(portionWeight.times(count)) };
}

/**
 * The AP weight that so many portions take, exact: round it up to what is sold. `usable` is the usable or served
 * fraction of the AP weight. A RangeError where it is nothing.
 */
export function apWeightFor(portions: number, portionWeight: Decimal, usable: Decimal): Decimal {
  refuseNothing(usable, "the usable fraction");
  return portionWeight.times(portions).div(usable);
}

/**
 * The usable or served price, or the cost of a portion, after the AP price has moved: an earlier test's cost factor
 * times the new AP price. Right as long as by-product prices move with it; where they do not, do the sums again.
 */
export function repriced(costFactor: Decimal, newApPrice: Decimal): Decimal {
  return costFactor.times(newApPrice);
}

function refuseNothing(figure: Decimal, what: string): void {
  if (figure.lte(new Decimal(0))) throw new RangeError(`${what} is not above zero`);
}
