import { Decimal } from "./decimal.js";

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
