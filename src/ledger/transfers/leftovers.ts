import type { Decision, PartClass } from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import {
  type Account,
  givenAwayAccount,
  inedibleAccount,
  itemAccount,
  partAccount,
  wastedFoodAccount,
} from "../accounts.js";
import type { Costs } from "../costing/costs.js";
import type { Directory } from "../directory.js";
import type { Transfer } from "../ledger.js";

/** What is left of parts and goes to destinations: food by the destination's end, the rest as inedible. */
export function sentAway({ sends }: Decision, costs: Costs, directory: Directory): Transfer[] {
  return sends.map(({ lot, destination, weight }, index) => {
    const kind = directory.classOf(lot.part);
    return {
      from: partAccount(lot.part),
      to: endOf(kind, destination, directory),
      weight,
      money: costs.sends[index] ?? NO_MONEY,
      cause: kind === "food" ? "left over" : "not for eating",
    };
  });
}

/** What is carried past the plan. */
export function keptPast(decision: Decision, costs: Costs, directory: Directory): Transfer[] {
  return [
    ...decision.keptItems.map(
      ({ item, weight }, index): Transfer => ({
        from: itemAccount(item),
        to: "closingStock",
        weight,
        money: costs.keptItems[index] ?? NO_MONEY,
        cause: keptFor(directory.item(item).carry?.use),
      }),
    ),
    ...decision.kept.map(
      ({ lot, weight }, index): Transfer => ({
        from: partAccount(lot.part),
        to: "closingStock",
        weight,
        money: costs.kept[index] ?? NO_MONEY,
        cause: keptFor(directory.part(lot.part).carry?.use),
      }),
    ),
  ];
}

function endOf(kind: PartClass, destination: string, directory: Directory): Account {
  const { end } = directory.destination(destination);
  if (kind !== "food") return inedibleAccount(destination);
  return end === "given away" ? givenAwayAccount(destination) : wastedFoodAccount(destination);
}

function keptFor(use: string | undefined): string {
  return use === undefined ? "kept" : `kept for ${use}`;
}
