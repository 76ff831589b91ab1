import { type Decimal, type Money, toCurrency, toKilograms, type Weight } from "../quantity/index.js";

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
