import type { Decision, Scenario } from "../kitchen/index.js";
import { toCurrency, toGrams } from "../quantity/index.js";
import { lossesOf, wasteOf } from "../waste/index.js";
import { accountKind } from "./accounts.js";
import { followCosts } from "./costing/costs.js";
import { directoryOf } from "./directory.js";
import { LedgerError } from "./errors.js";
import type { Ledger, Transfer } from "./ledger.js";
import { keepLots } from "./lots.js";
import { balances, totalsFromTransfers } from "./totals.js";
import { binnedWhole } from "./transfers/binned.js";
import { cutting } from "./transfers/cuts.js";
import { costOfDishes, portionsOut, staples } from "./transfers/dishes.js";
import { intoDishes } from "./transfers/goings.js";
import { keptPast, sentAway } from "./transfers/leftovers.js";
import { preparing } from "./transfers/preps.js";
import { driedInStore, stockIn } from "./transfers/stock.js";

/**
 * Writes every movement of a decision as a transfer, costed by the scenario's method, with the totals and what
 * each dish cost. Throws a CostingError where the method cannot be applied (credits above the joint cost, a
 * market value missing), and a LedgerError where the decision does not close.
 */
export function keepLedger(scenario: Scenario, decision: Decision): Ledger {
  const directory = directoryOf(scenario);
  const lots = keepLots(decision, directory);
  const costs = followCosts(decision, lots, directory);
  const goings = intoDishes(decision, costs, directory);
  const stapleCosts = staples(decision, directory);
  const dishCosts = costOfDishes(decision, [...goings, ...stapleCosts], directory);
  const transfers = [
    ...stockIn(decision, directory),
    ...driedInStore(decision),
    ...cutting(decision, costs, directory),
    ...binnedWhole(decision, costs, directory),
    ...preparing(decision, costs, directory),
    ...goings,
    ...stapleCosts,
    ...portionsOut(decision, dishCosts, directory),
    ...sentAway(decision, costs, directory),
    ...keptPast(decision, costs, directory),
  ].filter(({ weight, money }) => weight !== 0n || money !== 0n);
  mustBeSound(transfers);
  const { weights, money } = totalsFromTransfers(transfers);
  const losses = lossesOf(scenario, decision);
  return {
    transfers,
    weights: { ...weights, avoidablePeel: losses.avoidablePeel },
    money,
    losses,
    waste: wasteOf(scenario, losses, weights),
    dishCosts,
    goingCosts: costs.goings,
  };
}

/** Nothing moves backwards, and items and parts end empty. */
function mustBeSound(transfers: readonly Transfer[]): void {
  for (const { from, to, weight, money, cause } of transfers) {
    if (weight < 0n || money < 0n)
      throw new LedgerError(`less than nothing moves from ${from} to ${to} (${cause})`);
  }
  for (const [account, { weight, money }] of balances(transfers)) {
    const kind = accountKind(account);
    if ((kind === "item" || kind === "part") && (weight !== 0n || money !== 0n))
      throw new LedgerError(
        `${account} ends with ${toGrams(weight).toFixed(3)} g and ${toCurrency(money).toFixed(4)} instead of nothing`,
      );
  }
}
