import { Decimal } from "./decimal.js";
import { tenThousandths } from "./exact.js";
import { splitByShares } from "./split.js";

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

/**
 * Exact amounts in whole coins that add up to their sum in whole coins, by largest remainder, so that a printed
 * column adds up to its printed total. None is below zero.
 */
export function inCoins(amounts: readonly Decimal[], coin: Decimal): Decimal[] {
  const exact = amounts.map((amount) => amount.toDecimalPlaces(EXACT_PLACES));
  const whole = Decimal.sum(0, ...exact)
    .div(coin)
    .toFixed(0);
  return splitByShares(tenThousandths(BigInt(whole)), exact).map((coins) => coin.times(coins.toString()));
}
