import { type Cut, creditOf, isMainPart, type LotOrigin, type Part } from "../../kitchen/index.js";
import {
  Decimal,
  type Money,
  minus,
  NO_MONEY,
  NO_WEIGHT,
  plus,
  roundToInteger,
  splitByShares,
  tenThousandths,
  toCurrency,
  total,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import type { Directory } from "../directory.js";
import type { CostingProblem } from "../errors.js";
import type { LotBook, LotBooks } from "../lots.js";
import { words } from "../words.js";
import type { OutputCosts } from "./share.js";

/** A cut and the share of its item's cost that it carries. */
export interface CostedCut {
  readonly cut: Cut;
  readonly cost: Money;
}

export interface CutCosts extends OutputCosts {
  /** Parts, in the order of the yields, whose money is a credit: only what is used of them carries it. */
  readonly credited: readonly boolean[];
}

/** One part from one cut. */
interface Entry {
  readonly cut: number;
  readonly position: number;
  readonly part: Part;
  readonly weight: Weight;
  readonly origin: LotOrigin;
}

const MILLIGRAMS_PER_KILOGRAM = 1_000_000;

/**
 * Shares the cost of all of one item's cuts by the butcher's test: by-products (parts with a market value,
 * never-eat ones aside) are credited at that value for the weight really used, which is all that is neither
 * wasted nor inedible in the end, what a step takes counting as used; the food parts without a market value bear
 * the rest by weight, used or not.
 *
 * Null where every food part that was cut has a market value, or no food was cut: there is no main part to bear the
 * rest, and all that has a value is joint product alike.
 */
export function withCredits(
  item: string,
  costed: readonly CostedCut[],
  lots: LotBooks,
  directory: Directory,
): readonly CutCosts[] | CostingProblem | null {
  const entries = entriesOf(costed, directory).filter(({ weight }) => weight > 0n);
  const main = entries.filter(({ part }) => isMainPart(part));
  if (main.length === 0) return null;

  const jointCost = total(costed.map(({ cost }) => cost));
  const creditedEntries = entries.filter(({ part }) => part.marketValue !== null && part.class !== "never");
  const credits = creditsOf(creditedEntries, lots);
  const credit = total(credits);
  if (credit > jointCost) return creditsAboveCost(item, creditedEntries, credit, jointCost);
  const rest = splitByShares(
    minus(jointCost, credit),
    main.map(({ weight }) => weight),
  );

  const costs = costed.map(({ cut }) => ({
    parts: cut.parts.map(() => NO_MONEY),
    credited: cut.parts.map(() => false),
    loss: NO_MONEY,
  }));
  const put = ({ cut, position }: Entry, money: Money, credited: boolean): void => {
    const target = costs[cut] as (typeof costs)[number];
    target.parts[position] = money;
    target.credited[position] = credited;
  };
  creditedEntries.forEach((entry, index) => {
    put(entry, credits[index] as Money, true);
  });
  main.forEach((entry, index) => {
    put(entry, rest[index] as Money, false);
  });
  return costs;
}

function entriesOf(costed: readonly CostedCut[], directory: Directory): Entry[] {
  return costed.flatMap(({ cut: { parts, service } }, cut) =>
    parts.map(({ part, weight }, position) => ({
      cut,
      position,
      part: directory.part(part),
      weight,
      origin: { kind: "cut", service },
    })),
  );
}

/** The credit of each entry: a part's is rounded once over the whole plan, then shared by weight used. */
function creditsOf(entries: readonly Entry[], lots: LotBooks): Money[] {
  const credits = entries.map(() => NO_MONEY);
  for (const part of new Set(entries.map((entry) => entry.part))) {
    const own = entries.flatMap((entry, index) => (entry.part === part ? [{ ...entry, index }] : []));
    const cutOf = new Map<LotBook, Weight>();
    for (const { origin, weight } of own) {
      const lot = lots.of({ part: part.name, origin });
      cutOf.set(lot, plus(cutOf.get(lot) ?? NO_WEIGHT, weight));
    }
    const used = [...cutOf].map(([lot, weight]) => usedOf(weight, lot));
    const perMilligram = new Decimal(creditOf(part).toString()).div(MILLIGRAMS_PER_KILOGRAM);
    const credit = tenThousandths(roundToInteger(perMilligram.times(Decimal.sum(ZERO, ...used))));
    if (credit === 0n) continue;
    const shares = own.map(({ origin, weight }) => usedOf(weight, lots.of({ part: part.name, origin })));
    splitByShares(credit, shares).forEach((share, position) => {
      credits[own[position]?.index ?? 0] = share;
    });
  }
  return credits;
}

/** Milligrams used of a weight that came into a lot: all that went in is used alike. */
function usedOf(weight: Weight, { received, waysOut }: LotBook): Decimal {
  const used = total(waysOut.filter((way) => way.used).map((way) => way.weight));
  return new Decimal((used * weight).toString()).div(received.toString());
}

function creditsAboveCost(
  item: string,
  entries: readonly Entry[],
  credits: Money,
  jointCost: Money,
): CostingProblem {
  const parts = [...new Set(entries.map(({ part }) => part.name))];
  return {
    code: "costing/credits-above-cost",
    item,
    credits,
    jointCost,
    ...words.creditsAboveCost(item, parts, figure(credits), figure(jointCost)),
  };
}

function figure(amount: Money): string {
  return toCurrency(amount).toFixed(4).replace(/00$/, "");
}
