import { type Money, money, NO_MONEY } from "../quantity/index.js";
import type { Part, PartClass } from "./scenario.js";

export const COSTINGS = ["edible weight", "trim credit", "sales value"] as const;
export type CostingName = (typeof COSTINGS)[number];
export const DEFAULT_COSTING: CostingName = "edible weight";

/** Of the parts that are given any of: what a kilogram of each counts for. A cost is shared by weight times that. */
export type Counting = (given: readonly Part[]) => (part: Part) => Money;

/** A way to share the cost of joint parts. */
export interface CostingMethod {
  readonly counts: Counting;
  /** Whether by-products are credited with their market value first, wherever a main part bears the rest. */
  readonly credits: boolean;
  /** Whose market value must be stated. */
  readonly needsValueOf: "no part" | "some part" | "every food part";
}

/** The cost of a cut or a step is borne by the first of these that it gives any of. */
export const BEARING: readonly PartClass[] = ["food", "inedible", "never"];

const ALIKE = money("1");

/**
 * The food parts alike; where no food is given (bones bought for the pot), the inedible parts instead, then the
 * never-eat parts.
 */
export const byEdibleWeight: Counting = (given) => {
  const bearing = BEARING.find((kind) => given.some((part) => part.class === kind));
  return (part) => (part.class === bearing ? ALIKE : NO_MONEY);
};

/**
 * Sales value at split-off: the market value of every part that has one, sold, used or thrown away alike. Where nothing
 * given is worth anything, by edible weight.
 */
const bySalesValue: Counting = (given) =>
  given.some((part) => creditOf(part) > 0n) ? creditOf : byEdibleWeight(given);

/** Every costing method; what a scenario may name is read from here, and ledger, model and checks cost by it. */
export const COSTING_METHODS: Readonly<Record<CostingName, CostingMethod>> = {
  "edible weight": { counts: byEdibleWeight, credits: false, needsValueOf: "no part" },
  "trim credit": { counts: bySalesValue, credits: true, needsValueOf: "some part" },
  "sales value": { counts: bySalesValue, credits: false, needsValueOf: "every food part" },
};

/** What a kilogram is worth on the market; nothing of a never-eat part. */
export function creditOf({ class: kind, marketValue }: Part): Money {
  return kind === "never" ? NO_MONEY : (marketValue ?? NO_MONEY);
}

/** Whether the part bears, by credits, what the by-products leave of the cost. */
export function isMainPart({ class: kind, marketValue }: Part): boolean {
  return kind === "food" && marketValue === null;
}
