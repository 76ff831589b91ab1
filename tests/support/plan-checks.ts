import { expect } from "vitest";
import type { PlanJson } from "../../src/contract/index.js";
import { Decimal } from "../../src/quantity/index.js";

interface Balance {
  weight: Decimal;
  money: Decimal;
}

/** Balances of every account, from the printed transfers alone. */
export function balancesOf({ transfers }: PlanJson): Map<string, Balance> {
  const balances = new Map<string, Balance>();
  const post = (account: string, weight: Decimal, money: Decimal): void => {
    const { weight: oldWeight, money: oldMoney } = balances.get(account) ?? {
      weight: new Decimal(0),
      money: new Decimal(0),
    };
    balances.set(account, { weight: oldWeight.plus(weight), money: oldMoney.plus(money) });
  };
  for (const { from, to, weight, money } of transfers) {
    post(from, new Decimal(weight).neg(), new Decimal(money).neg());
    post(to, new Decimal(weight), new Decimal(money));
  }
  return balances;
}

/** Rebuilds every total from the transfers, checks both identities, and that items and parts end at nothing. */
export function expectBalanced(plan: PlanJson): void {
  const balances = balancesOf(plan);
  const sum = (prefix: string): Balance => {
    const found = [...balances].filter(([account]) => account === prefix || account.startsWith(`${prefix}:`));
    return {
      weight: found.reduce((total, [, { weight }]) => total.plus(weight), new Decimal(0)),
      money: found.reduce((total, [, { money }]) => total.plus(money), new Decimal(0)),
    };
  };
  for (const [account, { weight, money }] of balances) {
    if (!account.startsWith("item:") && !account.startsWith("part:")) continue;
    expect(`${account} ${weight} ${money}`).toBe(`${account} 0 0`);
  }
  const { weights, money } = plan;
  const rebuilt = {
    purchased: sum("supplier").weight.neg(),
    onHand: sum("onHand").weight.neg(),
    absorbed: sum("water").weight.neg(),
    inDishes: sum("dish").weight,
    givenAway: sum("givenAway").weight,
    closingStock: sum("closingStock").weight,
    wastedFood: sum("wastedFood").weight,
    inedible: sum("inedible").weight,
    losses: sum("loss").weight,
  };
  for (const [name, value] of Object.entries(rebuilt)) {
    expect(`${name} ${new Decimal(weights[name as keyof typeof rebuilt])}`).toBe(`${name} ${value}`);
  }
  const coins = {
    spent: sum("supplier").money.plus(sum("staples").money).neg(),
    stockValue: sum("onHand").money.neg(),
    inDishes: sum("dish").money,
    givenAway: sum("givenAway").money,
    closingStock: sum("closingStock").money,
    wasted: sum("wastedFood").money.plus(sum("inedible").money).plus(sum("loss").money),
  };
  for (const [name, value] of Object.entries(coins)) {
    expect(`${name} ${new Decimal(money[name as keyof typeof coins])}`).toBe(`${name} ${value}`);
  }
  const gramsIn = rebuilt.purchased.plus(rebuilt.onHand).plus(rebuilt.absorbed);
  const { inDishes, givenAway, closingStock, wastedFood, inedible, losses } = rebuilt;
  const gramsOut = [inDishes, givenAway, closingStock, wastedFood, inedible, losses];
  expect(gramsIn.toFixed()).toBe(Decimal.sum(...gramsOut).toFixed());
  const coinsOut = [coins.inDishes, coins.givenAway, coins.closingStock, coins.wasted];
  expect(coins.spent.plus(coins.stockValue).toFixed()).toBe(Decimal.sum(...coinsOut).toFixed());
}
