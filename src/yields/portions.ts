import { Decimal } from "../quantity/index.js";

/** Portions are whole: what is short of one is left over. Weights in one unit throughout, prices for that unit. */
export interface Portions {
  readonly count: number;
  readonly leftOver: Decimal;
}

/** The whole portions in a usable weight. A RangeError for a portion that weighs nothing. */
export function portionsIn(usableWeight: Decimal, portionWeight: Decimal): Portions {
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
 * The usable or served price, or the cost of a portion, after the AP price has moved: the cost factor (or the
 * portion's) of an earlier test times the new AP price. Right as long as by-product prices move with the AP
 * price; where they do not, do the test's sums again.
 */
export function repriced(costFactor: Decimal, newApPrice: Decimal): Decimal {
  return costFactor.times(newApPrice);
}

function refuseNothing(figure: Decimal, what: string): void {
  if (figure.lte(new Decimal(0))) throw new RangeError(`${what} is not above zero`);
}
