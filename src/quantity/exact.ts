import { Decimal as Base } from "decimal.js";

/** The one Decimal of this project: 60 significant digits, half-up, so that no step of a costing rounds early. */
export const Decimal = Base.clone({
  precision: 60,
  rounding: Base.ROUND_HALF_UP,
  toExpNeg: -30,
  toExpPos: 40,
});
export type Decimal = Base;

export const ZERO = new Decimal(0);
export const ONE = new Decimal(1);

declare const weightBrand: unique symbol;
declare const moneyBrand: unique symbol;

/** Whole milligrams. A number, a string or plain bigint does not pass as one: make it with the functions below. */
export type Weight = bigint & { readonly [weightBrand]: true };

/** Whole ten-thousandths of the scenario's currency unit. */
export type Money = bigint & { readonly [moneyBrand]: true };

type Exact = Weight | Money;

export const NO_WEIGHT = 0n as Weight;
export const NO_MONEY = 0n as Money;

const MILLIGRAMS_PER_GRAM = 1000;
const UNITS_PER_CURRENCY = 10_000;

/** The weight of a whole number of milligrams. */
export function milligrams(count: bigint): Weight {
  return count as Weight;
}

/** Money as a whole number of ten-thousandths of the currency unit. */
export function tenThousandths(count: bigint): Money {
  return count as Money;
}

/** Grams, as written or computed exactly, to the nearest milligram (half up). Binary floats are not taken. */
export function grams(value: Decimal | string | bigint): Weight {
  return roundToInteger(new Decimal(value.toString()).times(MILLIGRAMS_PER_GRAM)) as Weight;
}

/** Currency units to the nearest ten-thousandth (half up). Binary floats are not taken. */
export function money(value: Decimal | string | bigint): Money {
  return roundToInteger(new Decimal(value.toString()).times(UNITS_PER_CURRENCY)) as Money;
}

export function toGrams(weight: Weight): Decimal {
  return new Decimal(weight.toString()).div(MILLIGRAMS_PER_GRAM);
}

export function toKilograms(weight: Weight): Decimal {
  return toGrams(weight).div(1000);
}

export function toCurrency(amount: Money): Decimal {
  return new Decimal(amount.toString()).div(UNITS_PER_CURRENCY);
}

export function plus<T extends Exact>(left: T, right: T): T {
  return ((left as bigint) + (right as bigint)) as T;
}

export function minus<T extends Exact>(left: T, right: T): T {
  return ((left as bigint) - (right as bigint)) as T;
}

export function total<T extends Exact>(amounts: Iterable<T>): T {
  let sum = 0n;
  for (const amount of amounts) sum += amount;
  return sum as T;
}

/** `amount` taken a whole number of times. */
export function times<T extends Exact>(amount: T, count: bigint | number): T {
  return ((amount as bigint) * BigInt(count)) as T;
}

/** `amount` times an exact rate, to the nearest unit (half up). */
export function scale<T extends Exact>(amount: T, rate: Decimal): T {
  return roundToInteger(new Decimal(amount.toString()).times(rate)) as T;
}

export function smaller<T extends Exact>(left: T, right: T): T {
  return left < right ? left : right;
}

export function larger<T extends Exact>(left: T, right: T): T {
  return left > right ? left : right;
}

/** Nearest whole number, half up, as bigint. */
export function roundToInteger(value: Decimal): bigint {
  return BigInt(value.toFixed(0, Decimal.ROUND_HALF_UP));
}

/** The smallest coin of a currency in currency units: 0.01 of a euro, 1 yen. */
export function coinOf(currency: string): Decimal {
  const { maximumFractionDigits: digits } = new Intl.NumberFormat("en", {
    style: "currency",
    currency,
  }).resolvedOptions();
  return new Decimal(10).pow(-(digits ?? 2));
}

/** Beyond these decimals stands only what an earlier division left over, such as one by a pound's grams. */
const EXACT_PLACES = 30;

/** An exact amount to the nearest coin, half up. */
export function toCoins(amount: Decimal, coin: Decimal): Decimal {
  return amount.toDecimalPlaces(EXACT_PLACES).div(coin).toDecimalPlaces(0).times(coin);
}

/** A wage for an hour as it is written, "14.00 / h"; null where it cannot be read. */
export function hourlyWage(text: string): Money | null {
  const figure = /^(\d+(?:\.\d{1,4})?)\s*\/\s*h(?:our)?$/.exec(text.trim())?.[1];
  return figure === undefined ? null : money(figure);
}

/** What to say of one that cannot. */
export const WAGE_REMEDY = "Write a wage for an hour, such as 14.00 / h";
