import { byEdibleWeight, COSTING_METHODS, type Decision } from "../../kitchen/index.js";
import { type Money, NO_MONEY, NO_WEIGHT, plus, splitByShares } from "../../quantity/index.js";
import type { Directory } from "../directory.js";
import { CostingError, type CostingProblem, nowhereToGo } from "../errors.js";
import type { LotBook, LotBooks } from "../lots.js";
import { costOfItems, type ItemCosts } from "./items.js";
import { costingProblems } from "./problems.js";
import { type OutputCosts, shareCost } from "./share.js";
import { type CutCosts, withCredits } from "./trim-credit.js";

/** The money of every entry of the decision, in the decision's order. */
export interface Costs {
  readonly cuts: readonly OutputCosts[];
  readonly binned: ItemCosts["binned"];
  readonly keptItems: ItemCosts["keptItems"];
  readonly preps: readonly OutputCosts[];
  readonly goings: readonly Money[];
  readonly sends: readonly Money[];
  readonly kept: readonly Money[];
}

/** Money in a lot, by what may carry it away. */
interface Purse {
  /** Shared by everything that leaves the lot. */
  common: Money;
  /** Credits, carried only by what is used. */
  credit: Money;
}

/**
 * Follows the money from items through cuts, lots and steps by the scenario's costing method. A method that
 * cannot be applied is a CostingError.
 */
export function followCosts(decision: Decision, lots: LotBooks, directory: Directory): Costs {
  const problems = costingProblems(directory.scenario);
  if (problems.length > 0) throw new CostingError(problems);
  const items = costOfItems(decision, directory);
  const cuts = costOfCuts(decision, items.cuts, lots, directory);
  const purses = fillPurses(decision, cuts, lots, directory);
  const out = {
    preps: decision.preps.map(() => NO_MONEY),
    goings: decision.goings.map(() => NO_MONEY),
    sends: decision.sends.map(() => NO_MONEY),
    kept: decision.kept.map(() => NO_MONEY),
  };
  const preps = decision.preps.map((): OutputCosts => ({ parts: [], loss: NO_MONEY }));
  for (const lot of lots.inOrder) {
    shareOut(lot, purseOf(purses, lot)).forEach((money, position) => {
      const way = lot.waysOut[position];
      if (way === undefined) return;
      out[way.list][way.index] = money;
      const prep = way.list === "preps" ? decision.preps[way.index] : undefined;
      if (prep === undefined) return;
      const shared = shareCost(money, prep, byEdibleWeight, directory.part);
      preps[way.index] = shared;
      prep.parts.forEach(({ part }, index) => {
        const purse = purseOf(purses, lots.of({ part, origin: prep.from.origin }));
        purse.common = plus(purse.common, shared.parts[index] ?? NO_MONEY);
      });
    });
  }
  return { ...out, cuts, preps, binned: items.binned, keptItems: items.keptItems };
}

function costOfCuts(
  decision: Decision,
  costs: readonly Money[],
  lots: LotBooks,
  directory: Directory,
): CutCosts[] {
  const method = COSTING_METHODS[directory.scenario.costing];
  const shared = decision.cuts.map(
    (cut, index): CutCosts => ({
      ...shareCost(costs[index] ?? NO_MONEY, cut, method.counts, directory.part),
      credited: cut.parts.map(() => false),
    }),
  );
  if (!method.credits) return shared;
  const problems: CostingProblem[] = [];
  for (const { name } of directory.scenario.items) {
    const own = decision.cuts.flatMap((cut, index) =>
      cut.item === name ? [{ cut, index, cost: costs[index] ?? NO_MONEY }] : [],
    );
    const result = withCredits(name, own, lots, directory);
    if (result === null) continue;
    if ("code" in result) problems.push(result);
    else {
      own.forEach(({ index }, position) => {
        shared[index] = result[position] as CutCosts;
      });
    }
  }
  if (problems.length > 0) throw new CostingError(problems);
  return shared;
}

function fillPurses(
  decision: Decision,
  cuts: readonly CutCosts[],
  lots: LotBooks,
  directory: Directory,
): Map<LotBook, Purse> {
  const purses = new Map<LotBook, Purse>();
  decision.cuts.forEach(({ parts, service }, index) => {
    const shared = cuts[index];
    parts.forEach(({ part }, position) => {
      const purse = purseOf(purses, lots.of({ part, origin: { kind: "cut", service } }));
      const money = shared?.parts[position] ?? NO_MONEY;
      if (shared?.credited[position]) purse.credit = plus(purse.credit, money);
      else purse.common = plus(purse.common, money);
    });
  });
  directory.scenario.partsOnHand.forEach(({ part, value }, index) => {
    const purse = purseOf(purses, lots.of({ part, origin: { kind: "onHand", index } }));
    purse.common = plus(purse.common, value);
  });
  return purses;
}

function purseOf(purses: Map<LotBook, Purse>, lot: LotBook): Purse {
  const existing = purses.get(lot);
  if (existing !== undefined) return existing;
  const purse = { common: NO_MONEY, credit: NO_MONEY };
  purses.set(lot, purse);
  return purse;
}

/** The money that each way out of a lot carries, in their order. */
function shareOut({ name, waysOut }: LotBook, { common, credit }: Purse): Money[] {
  const all = waysOut.map(({ weight }) => weight);
  const used = waysOut.map((way) => (way.used ? way.weight : NO_WEIGHT));
  if (common !== 0n && all.every((weight) => weight === 0n)) throw nowhereToGo(name, common);
  if (credit !== 0n && used.every((weight) => weight === 0n)) throw nowhereToGo(name, credit);
  const credits = splitByShares(credit, used);
  return splitByShares(common, all).map((money, index) => plus(money, credits[index] ?? NO_MONEY));
}
