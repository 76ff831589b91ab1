import type { Money, Weight } from "../quantity/index.js";
import type { Losses, Waste } from "../waste/index.js";
import type { Account } from "./accounts.js";

/** One movement. Weight and money are >= 0 and never both nothing. */
export interface Transfer {
  readonly from: Account;
  readonly to: Account;
  readonly weight: Weight;
  readonly money: Money;
  readonly cause: string;
}

export interface Ledger {
  /** In the order of the work: stock in, cuts, steps, goings into dishes, what is left. */
  readonly transfers: readonly Transfer[];
  readonly weights: WeightTotals & {
    /** An "of which" of inedible: see `Losses`. */
    readonly avoidablePeel: Weight;
  };
  readonly money: MoneyTotals;
  readonly losses: Losses;
  readonly waste: Waste;
  readonly dishCosts: readonly DishCost[];
  /** What each of the decision's goings carries, in its order. */
  readonly goingCosts: readonly Money[];
}

/** purchased + onHand + absorbed = inDishes + givenAway + closingStock + wastedFood + inedible + losses */
export interface WeightTotals {
  readonly purchased: Weight;
  readonly onHand: Weight;
  readonly absorbed: Weight;
  readonly inDishes: Weight;
  readonly givenAway: Weight;
  readonly closingStock: Weight;
  readonly wastedFood: Weight;
  readonly inedible: Weight;
  readonly losses: Weight;
}

/** spent + stockValue = inDishes + givenAway + closingStock + wasted */
export interface MoneyTotals {
  readonly spent: Money;
  readonly stockValue: Money;
  readonly inDishes: Money;
  readonly givenAway: Money;
  readonly closingStock: Money;
  /** Whatever wasted food, inedible parts and losses carried away. */
  readonly wasted: Money;
}

/** One cooking of a dish: all portions cooked, eaten here, eaten later or over. */
export interface DishCost {
  readonly dish: string;
  /** Index of the service it is cooked for. */
  readonly service: number;
  readonly portions: number;
  /** Cooked weight where a line is stated cooked, else raw. Staples have none. */
  readonly weight: Weight;
  readonly cost: Money;
}
