import type { Decision } from "../../kitchen/index.js";
import {
  type Money,
  minus,
  NO_MONEY,
  NO_WEIGHT,
  plus,
  splitByShares,
  type Weight,
} from "../../quantity/index.js";
import type { Directory } from "../directory.js";
import { mustClose, nowhereToGo } from "../errors.js";

/** What each cut, binned unit and kept unit takes of its item's cost, in the decision's order. */
export interface ItemCosts {
  readonly cuts: readonly Money[];
  readonly binned: readonly Money[];
  readonly keptItems: readonly Money[];
}

type End = { readonly list: keyof ItemCosts; readonly index: number; readonly weight: Weight };

interface Pool {
  weight: Weight;
  money: Money;
  readonly ends: End[];
}

/**
 * Each item is one pool over the whole plan: what was bought at its price, with its share of the delivery, and what was on hand at its value,
 * shared by weight among everything that became of it; what dried in store bears nothing. An item that does not close is a LedgerError.
 */
export function costOfItems(decision: Decision, directory: Directory): ItemCosts {
  const pools = new Map<string, Pool>(
    directory.scenario.items.map(({ name }) => [name, { weight: NO_WEIGHT, money: NO_MONEY, ends: [] }]),
  );
  const poolOf = (item: string): Pool => {
    const { name } = directory.item(item);
    return pools.get(name) as Pool;
  };
  const receive = (item: string, weight: Weight, money: Money): void => {
    const pool = poolOf(item);
    pool.weight = plus(pool.weight, weight);
    pool.money = plus(pool.money, money);
  };
  for (const { item, weight, cost, delivery = NO_MONEY } of decision.purchases)
    receive(item, weight, plus(cost, delivery));
  for (const { name, onHand } of directory.scenario.items) {
    for (const { weight, value } of onHand) receive(name, weight, value);
  }
  for (const list of ["cuts", "binned", "keptItems"] as const) {
    decision[list].forEach(({ item, weight }, index) => {
      poolOf(item).ends.push({ list, index, weight });
    });
  }
  for (const { item, weight } of decision.storageLosses ?? []) {
    const pool = poolOf(item);
    pool.weight = minus(pool.weight, weight);
  }
  const costs = {
    cuts: decision.cuts.map(() => NO_MONEY),
    binned: decision.binned.map(() => NO_MONEY),
    keptItems: decision.keptItems.map(() => NO_MONEY),
  };
  for (const [item, { weight, money, ends }] of pools) {
    const weights = ends.map((end) => end.weight);
    mustClose(item, weight, weights.reduce(plus, NO_WEIGHT));
    if (weight === 0n && money !== 0n) throw nowhereToGo(item, money);
    const shares = splitByShares(money, weights);
    ends.forEach(({ list, index }, position) => {
      costs[list][index] = shares[position] as Money;
    });
  }
  return costs;
}
