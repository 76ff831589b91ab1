import { type Money, minus, NO_MONEY, NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";
import { type AccountKind, accountKind } from "./accounts.js";
import type { MoneyTotals, WeightTotals } from "./ledger.js";

/** A transfer as far as totals need it: account names as plain text, as they stand in a plan's JSON. */
export interface Movement {
  readonly from: string;
  readonly to: string;
  readonly weight: Weight;
  readonly money: Money;
}

export interface Balance {
  readonly weight: Weight;
  readonly money: Money;
}

/**
 * The totals of the plan, each the sum of the transfers of its own accounts and of nothing else. Dishes are
 * what went in less what went on to later services and destinations. An unknown account is a LedgerError.
 */
export function totalsFromTransfers(transfers: readonly Movement[]): {
  weights: WeightTotals;
  money: MoneyTotals;
} {
  const into = (...kinds: AccountKind[]) =>
    sumOf(transfers.filter(({ to }) => kinds.includes(accountKind(to))));
  const outOf = (...kinds: AccountKind[]) =>
    sumOf(transfers.filter(({ from }) => kinds.includes(accountKind(from))));
  const dishesIn = into("dish");
  const dishesOut = outOf("dish");
  const givenAway = into("givenAway");
  const closingStock = into("closingStock");
  return {
    weights: {
      purchased: outOf("supplier").weight,
      onHand: outOf("onHand").weight,
      absorbed: outOf("water").weight,
      inDishes: minus(dishesIn.weight, dishesOut.weight),
      givenAway: givenAway.weight,
      closingStock: closingStock.weight,
      wastedFood: into("wastedFood").weight,
      inedible: into("inedible").weight,
      losses: into("loss").weight,
    },
    money: {
      spent: outOf("supplier", "staples").money,
      stockValue: outOf("onHand").money,
      inDishes: minus(dishesIn.money, dishesOut.money),
      givenAway: givenAway.money,
      closingStock: closingStock.money,
      wasted: into("wastedFood", "inedible", "loss").money,
    },
  };
}

/** What each account took in less what left it, by its name. */
export function balances(transfers: readonly Movement[]): ReadonlyMap<string, Balance> {
  const standing = new Map<string, Balance>();
  const at = (account: string): Balance => standing.get(account) ?? { weight: NO_WEIGHT, money: NO_MONEY };
  for (const { from, to, weight, money } of transfers) {
    const source = at(from);
    standing.set(from, { weight: minus(source.weight, weight), money: minus(source.money, money) });
    const target = at(to);
    standing.set(to, { weight: plus(target.weight, weight), money: plus(target.money, money) });
  }
  return standing;
}

function sumOf(transfers: readonly Movement[]): Balance {
  return {
    weight: total(transfers.map(({ weight }) => weight)),
    money: total(transfers.map(({ money }) => money)),
  };
}
