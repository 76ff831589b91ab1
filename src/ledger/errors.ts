import { type Money, toCurrency, toGrams, type Weight } from "../quantity/index.js";

/** The decision does not close or names something the scenario does not hold: our fault, never the cook's. */
export class LedgerError extends Error {
  override readonly name = "LedgerError";
}

/** Something about prices or credits that keeps the chosen costing method from being applied. */
export type CostingProblem =
  | {
      readonly code: "costing/no-market-value";
      readonly item: string;
      readonly part: string;
      readonly what: string;
      readonly remedy: string;
    }
  | {
      readonly code: "costing/credits-above-cost";
      readonly item: string;
      readonly credits: Money;
      readonly jointCost: Money;
      readonly what: string;
      readonly remedy: string;
    };

/** The costing method cannot be applied to this scenario or plan; lists every problem. */
export class CostingError extends Error {
  override readonly name = "CostingError";

  constructor(readonly problems: readonly CostingProblem[]) {
    super(problems.map(({ what, remedy }) => `${what}. ${remedy}`).join("\n"));
  }
}

/** For scenarios changed on trial, which the costing method need not fit: null then, and any other error again. */
export function notForThisCosting(error: unknown): null {
  if (error instanceof CostingError) return null;
  throw error;
}

/** Refuses weights that do not close, saying by how much and which way. */
export function mustClose(name: string, received: Weight, left: Weight): void {
  if (received === left) return;
  const gap = toGrams((received > left ? received - left : left - received) as Weight).toFixed(3);
  throw new LedgerError(
    received > left
      ? `${name} takes in ${gap} g more than leaves it`
      : `${name} gives out ${gap} g more than it takes in`,
  );
}

/** Something cost money and weighs nothing. */
export class NothingToCarry extends LedgerError {}

/** Money of a pool that weighs nothing has nowhere to go; this refuses to lose it. */
export function nowhereToGo(name: string, money: Money): NothingToCarry {
  return new NothingToCarry(
    `${name} carries ${toCurrency(money).toFixed(4)} but has no weight to carry it away with`,
  );
}
