import { Decimal } from "../../src/quantity/index.js";
import type { ByProduct } from "../../src/yields/index.js";

// What published test cards are typed in with. Every print has its own rounding rule.

export const decimal = (text: string | number): Decimal => new Decimal(text);
/** 8 lb 9 oz, in pounds. */
export const pounds = (whole: number, ounces = 0): Decimal => decimal(ounces).div(16).plus(whole);
export const cutOff = (value: Decimal, places: number): string => value.toFixed(places, Decimal.ROUND_DOWN);
export const percent = (fraction: Decimal): Decimal => fraction.times(100);

/** Each by its name, weight and price. */
export function byProducts(
  ...rows: readonly (readonly [string, number | Decimal, string | number])[]
): ByProduct[] {
  return rows.map(([name, weight, price]) => ({
    name,
    weight: decimal(weight.toString()),
    price: decimal(price),
  }));
}
