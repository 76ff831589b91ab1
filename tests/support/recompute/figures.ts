import { Decimal as Base } from "decimal.js";

export const Decimal = Base.clone({ precision: 60 });
export type Decimal = Base;
export type Value = Base.Value;

export const ZERO = new Decimal(0);
export const ONE = new Decimal(1);
const MILLIGRAM = "0.001";

export function sumOf<T>(entries: readonly T[], of: (entry: T) => Value): Decimal {
  return entries.reduce((sum, entry) => sum.plus(of(entry)), ZERO);
}

/** "what: is X, recomputed Y", unless they differ by no more than is allowed. */
export function compare(what: string, printed: Value, recomputed: Decimal, within: Value = 0): string[] {
  return recomputed.minus(printed).abs().lessThanOrEqualTo(within)
    ? []
    : [`${what}: is ${printed}, recomputed ${short(recomputed)}`];
}

/** "what: X is above Y", unless it is above by no more than is allowed; nothing where there is no limit. */
export function atMost(what: string, found: Value, most: Value | null, within: Value = 0): string[] {
  return most === null || new Decimal(found).minus(most).lessThanOrEqualTo(within)
    ? []
    : [`${what}: ${short(found)} is above ${most}`];
}

export function atLeast(what: string, found: Value, least: Value | null, within: Value = 0): string[] {
  return least === null || new Decimal(least).minus(found).lessThanOrEqualTo(within)
    ? []
    : [`${what}: ${short(found)} is below ${least}`];
}

/** So many milligrams, for what is rounded to one so many times. */
export function milligrams(times: number): Decimal {
  return new Decimal(MILLIGRAM).times(times);
}

/** To the milligram, half up. */
export function toMilligram(grams: Decimal): Decimal {
  return grams.toDecimalPlaces(3, Decimal.ROUND_HALF_UP);
}

function short(value: Value): string {
  return new Decimal(value).toDecimalPlaces(6).toString();
}
