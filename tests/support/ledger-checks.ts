import type { Ledger } from "../../src/ledger/index.js";
import { type Money, toCurrency, toGrams, type Weight } from "../../src/quantity/index.js";

/** A ledger's totals as plain decimal text, so that a test reads like the page it checks. */
export function weightsOf({ weights }: Ledger): Record<string, string> {
  return Object.fromEntries(Object.entries(weights).map(([name, weight]) => [name, gramsText(weight)]));
}

export function moneyOf(ledger: Ledger): Record<string, string> {
  return Object.fromEntries(Object.entries(ledger.money).map(([name, amount]) => [name, moneyText(amount)]));
}

/** "from > to: weight g, money" of every transfer whose accounts or cause hold the text. */
export function movementsOf({ transfers }: Ledger, text = ""): string[] {
  return transfers
    .map(
      ({ from, to, weight, money, cause }) =>
        `${from} > ${to}: ${gramsText(weight)} g, ${moneyText(money)} (${cause})`,
    )
    .filter((line) => line.includes(text));
}

export function gramsText(weight: Weight): string {
  return toGrams(weight).toFixed();
}

export function moneyText(amount: Money): string {
  return toCurrency(amount).toFixed();
}
