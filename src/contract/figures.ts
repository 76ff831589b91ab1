import { Decimal, type Money, toCurrency, toGrams, type Weight, ZERO } from "../quantity/index.js";

/** Grams as a decimal string, to the milligram where there are any. */
export function gramsText(weight: Weight): string {
  return toGrams(weight).toFixed();
}

/** Currency units as a decimal string with two decimals, or as many as the amount has. */
export function moneyText(amount: Money): string {
  const exact = toCurrency(amount);
  return exact.toFixed(Math.max(2, exact.decimalPlaces()));
}

/** A figure of the optimiser, which is a binary float, to six decimals. */
export function figureText(value: number): string {
  return fixed(new Decimal(value), 6);
}

/** The value of an aim: waste, which the optimiser counts in kilograms, in grams; cost in currency units. */
export function aimText(aim: string, value: number): string {
  return aim === "waste" ? fixed(new Decimal(value).times(1000), 3) : figureText(value);
}

/** Nothing has no sign, not even a hair below it. */
function fixed(value: Decimal, decimals: number): string {
  const rounded = value.toDecimalPlaces(decimals);
  return (rounded.isZero() ? ZERO : rounded).toFixed(decimals);
}
