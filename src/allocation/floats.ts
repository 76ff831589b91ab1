import {
  Decimal,
  grams,
  larger,
  type Money,
  milligrams,
  NO_WEIGHT,
  toCurrency,
  toKilograms,
  type Weight,
} from "../quantity/index.js";

/** The one place where exact figures become the model's binary floats. */
export function kg(weight: Weight): number {
  return toKilograms(weight).toNumber();
}

export function currency(amount: Money): number {
  return toCurrency(amount).toNumber();
}

export function rate(value: Decimal): number {
  return value.toNumber();
}

const MILLIGRAMS_PER_KILOGRAM = 1_000_000;

/** A model weight in kilograms, to the nearest milligram and never below zero. */
export function weightOf(kilograms: number): Weight {
  return larger(NO_WEIGHT, milligrams(BigInt(Math.round(kilograms * MILLIGRAMS_PER_KILOGRAM))));
}

/** To the nearest multiple of the scale's step; halves go down, so that none puts a dish over its ceiling. */
export function nearestStep(weight: Weight, step: Weight): Weight {
  return milligrams(((2n * weight + step - 1n) / (2n * step)) * step);
}

/** Up to the next multiple of the scale's step; what is over one by a hair of rounding counts as that one. */
export function upToStep(weight: Weight, step: Weight): Weight {
  const hair = grams("0.01");
  const raised = (weight - hair + step - 1n) / step;
  return milligrams((raised < 0n ? 0n : raised) * step);
}

export function downToStep(weight: Weight, step: Weight): Weight {
  return milligrams((weight / step) * step);
}

/** The weight of a source that gives `wanted` at the yield, rounded up to the milligram. */
export function sourceFor(wanted: Weight, fraction: Decimal): Weight {
  return milligrams(BigInt(new Decimal(wanted.toString()).div(fraction).ceil().toFixed(0)));
}
