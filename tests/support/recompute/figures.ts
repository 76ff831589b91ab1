import { Decimal as Base } from "decimal.js";

export const Decimal = Base.clone({ precision: 60 });
export type Decimal = Base;
export type Value = Base.Value;

export const ZERO = new Decimal(0);
const MILLIGRAM = "0.001";

export function sumOf<T>(entries: readonly T[], of: (entry: T) => Value): Decimal {
  return entries.reduce((sum, entry) => sum.plus(of(entry)), ZERO);
}

/** "what: is X, recomputed Y", unless they differ by no more than is allowed. */
export function compare(what: string, printed: Value, recomputed: Decimal, within: Value = 0) {
  return recomputed.minus(printed).abs().lessThanOrEqualTo(within)
    ? []
    : [`${what}: is ${printed}, recomputed ${recomputed.toDecimalPlaces(6).toString()}`];
}

/** So many milligrams, for what is rounded to one so many times. */
export function milligrams(times: number): Decimal {
  return new Decimal(MILLIGRAM).times(times);
}
