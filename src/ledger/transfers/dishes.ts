import type { Cooking, Decision } from "../../kitchen/index.js";
import { Decimal, money, NO_MONEY, NO_WEIGHT, splitByShares, total, ZERO } from "../../quantity/index.js";
import { type Account, dishAccount, givenAwayAccount, wastedFoodAccount } from "../accounts.js";
import type { Directory } from "../directory.js";
import { LedgerError } from "../errors.js";
import type { DishCost, Transfer } from "../ledger.js";

/** Money only: the exact cost of a portion's staples times the portions, rounded once for the whole cooking. */
export function staples({ cookings }: Decision, directory: Directory): Transfer[] {
  return cookings.flatMap(({ dish, service, portions }) => {
    const lines = directory.dish(dish).staples;
    const costs = lines.map(({ costPerPortion }) => costPerPortion);
    const whole = money(Decimal.sum(ZERO, ...costs).times(portions));
    if (whole === 0n) return [];
    return splitByShares(whole, costs).map(
      (share, index): Transfer => ({
        from: "staples",
        to: dishAccount(dish, directory.serviceName(service)),
        weight: NO_WEIGHT,
        money: share,
        cause: lines[index]?.name ?? "staples",
      }),
    );
  });
}

/**
 * What each cooking weighs and costs, from the transfers into its account. A dish cooked twice for one service,
 * or filled without being cooked, is a LedgerError.
 */
export function costOfDishes(
  { cookings }: Decision,
  intoDishes: readonly Transfer[],
  directory: Directory,
): DishCost[] {
  const filled = new Map<Account, Transfer[]>();
  for (const { dish, service } of cookings) {
    const account = dishAccount(dish, directory.serviceName(service));
    if (filled.has(account)) throw new LedgerError(`${account} is cooked twice`);
    filled.set(account, []);
  }
  for (const transfer of intoDishes) {
    if (!transfer.to.startsWith("dish:")) continue;
    const own = filled.get(transfer.to);
    if (own === undefined) throw new LedgerError(`${transfer.to} is given food but never cooked`);
    own.push(transfer);
  }
  return cookings.map(({ dish, service, portions }) => {
    const own = filled.get(dishAccount(dish, directory.serviceName(service))) ?? [];
    return {
      dish,
      service,
      portions,
      weight: total(own.map((transfer) => transfer.weight)),
      cost: total(own.map((transfer) => transfer.money)),
    };
  });
}

/**
 * Portions that are not eaten where they were cooked: on to a later service, or over and away to a destination.
 * Weight and money go by portions, by largest remainder; what is eaten at once stays. Portions that do not add
 * up are a LedgerError.
 */
export function portionsOut(
  { cookings }: Decision,
  dishCosts: readonly DishCost[],
  directory: Directory,
): Transfer[] {
  return cookings.flatMap((cooking, index) => {
    const ways = waysOfPortions(cooking, directory);
    const shares = ways.map(({ portions }) => BigInt(portions));
    const cost = dishCosts[index];
    if (cost === undefined) return [];
    if (cooking.portions === 0 && (cost.weight !== 0n || cost.cost !== 0n))
      throw new LedgerError(`${cooking.dish} is given food but has no portions`);
    const weights = splitByShares(cost.weight, shares);
    const moneys = splitByShares(cost.cost, shares);
    const from = dishAccount(cooking.dish, directory.serviceName(cooking.service));
    return ways.flatMap(({ to, cause }, position): Transfer[] =>
      to === from
        ? []
        : [{ from, to, weight: weights[position] ?? NO_WEIGHT, money: moneys[position] ?? NO_MONEY, cause }],
    );
  });
}

function waysOfPortions({ dish, service, portions, served, spare }: Cooking, directory: Directory) {
  const ways = [
    ...served.map((sitting) => ({
      to: dishAccount(dish, directory.serviceName(sitting.service)),
      portions: sitting.portions,
      cause: `kept for ${directory.serviceName(sitting.service)}`,
    })),
    ...spare.map(({ destination, portions: over }) => ({
      to:
        directory.destination(destination).end === "given away"
          ? givenAwayAccount(destination)
          : wastedFoodAccount(destination),
      portions: over,
      cause: "spare portions",
    })),
  ];
  const gone = ways.reduce((sum, way) => sum + way.portions, 0);
  if (gone !== portions)
    throw new LedgerError(
      `${dish} for ${directory.serviceName(service)} is cooked in ${portions} portions, of which ${gone} are accounted for`,
    );
  return ways;
}
