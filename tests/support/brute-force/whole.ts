import type { Decimal, Money, Weight } from "../../../src/quantity/index.js";

/**
 * The referee counts in whole grams, and in ten-millionths of the currency unit, as safe integers: whatever
 * is not whole in these is refused, so no figure of a scenario is ever rounded.
 */
export function wholeGrams(weight: Weight): number {
  if (weight % 1000n !== 0n) throw new RangeError(`${weight} mg is not a whole number of grams`);
  return Number(weight / 1000n);
}

/** A part of a whole weight, which must itself be whole up to the sixtieth digit of a written fraction. */
export function wholePart(whole: number, fraction: Decimal): number {
  return wholeNumber(fraction.times(whole), `${fraction} of ${whole} g`);
}

/** Money as ten-millionths of the currency unit. */
export function tenMillionths(amount: Money): number {
  return Number(amount) * 1000;
}

/** Money for one gram, in ten-millionths, at a price for a kilogram. */
export function perGram(pricePerKilogram: Money): number {
  return Number(pricePerKilogram);
}

export function wholeNumber(value: Decimal, what: string): number {
  const nearest = value.toDecimalPlaces(0);
  if (value.minus(nearest).abs().greaterThan("1e-20")) throw new RangeError(`${what} is not whole: ${value}`);
  return nearest.toNumber();
}

const DIGITS = 10n ** 12n;

/** An exact quotient of whole numbers, for what does not come out whole: costs of a gram. */
export class Ratio {
  constructor(
    readonly over: bigint,
    readonly under: bigint,
  ) {
    if (under <= 0n) throw new RangeError("a ratio needs a positive divisor");
  }

  static of(value: Decimal): Ratio {
    const places = value.decimalPlaces();
    return new Ratio(BigInt(value.times(`1e${places}`).toFixed(0)), 10n ** BigInt(places));
  }

  plus(other: Ratio): Ratio {
    return new Ratio(this.over * other.under + other.over * this.under, this.under * other.under);
  }

  times(other: Ratio): Ratio {
    return new Ratio(this.over * other.over, this.under * other.under);
  }

  toNumber(): number {
    return Number((this.over * DIGITS) / this.under) / Number(DIGITS);
  }

  atMost(other: Ratio): boolean {
    return this.over * other.under <= other.over * this.under;
  }
}
