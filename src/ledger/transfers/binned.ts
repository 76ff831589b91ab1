import {
  byEdibleWeight,
  type Decision,
  type ItemEnd,
  isBinFor,
  type PartClass,
} from "../../kitchen/index.js";
import { type Money, NO_MONEY, NO_WEIGHT, splitByShares } from "../../quantity/index.js";
import { breakdownOfMostFood } from "../../waste/index.js";
import {
  type Account,
  inedibleAccount,
  itemAccount,
  lossAccount,
  partAccount,
  wastedFoodAccount,
} from "../accounts.js";
import type { Costs } from "../costing/costs.js";
import { shareCost } from "../costing/share.js";
import { binFor, type Directory } from "../directory.js";
import type { Transfer } from "../ledger.js";

/**
 * Whole items thrown away uncut, counted as the parts that the breakdown with most food would have given: food
 * wasted, inedible parts inedible, and the loss a storage loss, for nothing was cut. The food bears the cost. An
 * item that has no breakdown is wasted food entirely.
 */
export function binnedWhole({ binned }: Decision, costs: Costs, directory: Directory): Transfer[] {
  return binned.flatMap((end, index) => binning(end, costs.binned[index] ?? NO_MONEY, directory));
}

function binning({ item, service, weight }: ItemEnd, cost: Money, directory: Directory): Transfer[] {
  const from = itemAccount(item);
  const cause = `binned whole before ${directory.serviceName(service)}`;
  const breakdown = breakdownOfMostFood(directory.item(item), directory.classOf);
  if (breakdown === null)
    return [{ from, to: binAccount("food", item, directory), weight, money: cost, cause }];
  const names = breakdown.yields.map(({ part }) => part);
  const weights = splitByShares(weight, [
    ...breakdown.yields.map(({ fraction }) => fraction),
    breakdown.loss,
  ]);
  const parts = names.map((part, position) => ({ part, weight: weights[position] ?? NO_WEIGHT }));
  const loss = weights.at(-1) ?? NO_WEIGHT;
  const shared = shareCost(cost, { parts, loss }, byEdibleWeight, directory.part);
  return [
    ...parts.flatMap((part, position): Transfer[] => {
      const account = partAccount(part.part);
      const carried = { weight: part.weight, money: shared.parts[position] ?? NO_MONEY, cause };
      return [
        { from, to: account, ...carried },
        { from: account, to: binAccount(directory.classOf(part.part), item, directory), ...carried },
      ];
    }),
    { from, to: lossAccount("storage"), weight: loss, money: shared.loss, cause },
  ];
}

/** Where the scenario states it for what the house held, there; else where such waste goes. */
function binAccount(kind: PartClass, item: string, { scenario, item: itemNamed }: Directory): Account {
  const stated = itemNamed(item).onHand.map(({ destination }) => destination);
  const { name } =
    scenario.destinations.find((each) => stated.includes(each.name) && isBinFor(kind, each)) ??
    binFor(kind, scenario);
  return kind === "food" ? wastedFoodAccount(name) : inedibleAccount(name);
}
