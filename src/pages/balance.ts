import type { Plan } from "../contract/index.js";
import { NO_MONEY, total } from "../quantity/index.js";
import type { View } from "./view.js";
import { coins } from "./writing.js";

/** The rows of a balance in the order they are printed: words, and the plan's total of that name. */
export type Rows<Key extends string> = readonly (readonly [name: string, key: Key])[];
export type WeightKey = Exclude<keyof Plan["weights"], "unit" | "avoidablePeel">;
type MoneyKey = Exclude<keyof Plan["money"], "currency">;

export const WEIGHTS_IN: Rows<WeightKey> = [
  ["Purchased", "purchased"],
  ["In the house before", "onHand"],
  ["Water taken up", "absorbed"],
];
export const WEIGHTS_OUT: Rows<WeightKey> = [
  ["On plates", "inDishes"],
  ["Given away", "givenAway"],
  ["Closing stock", "closingStock"],
  ["Wasted food", "wastedFood"],
  ["Inedible", "inedible"],
  ["Cutting, storage and cooking loss", "losses"],
];
const MONEY_IN: Rows<MoneyKey> = [
  ["Spent", "spent"],
  ["Value of what the house held", "stockValue"],
];
const MONEY_OUT: Rows<MoneyKey> = [
  ["On plates", "inDishes"],
  ["Given away", "givenAway"],
  ["Closing stock", "closingStock"],
  ["Wasted", "wasted"],
];

/** Both sides of a balance as they are printed: what came in and where it went, each with its sum. */
export type Balance = {
  readonly caption: string;
  /** Over the figures of each term. */
  readonly heads: readonly string[];
  readonly sides: readonly { readonly terms: readonly Term[]; readonly total: Term }[];
};
export type Term = { readonly name: string; readonly figures: readonly string[] };

export function balance(
  caption: string,
  heads: readonly string[],
  into: readonly Term[],
  out: readonly Term[],
  sum: readonly string[],
): Balance {
  return {
    caption,
    heads,
    sides: [
      { terms: into, total: { name: "All in", figures: sum } },
      { terms: out, total: { name: "All out", figures: sum } },
    ],
  };
}

/** The balance of money of these plans, in whole coins that add up; a figure for each plan. */
export function moneyBalance(
  plans: readonly Plan[],
  heads: readonly string[],
  { scenario, writing }: View,
): Balance {
  const amounts = (rows: typeof MONEY_IN) =>
    plans.map((plan) =>
      coins(
        rows.map(([, key]) => plan.money[key]),
        scenario,
      ),
    );
  const terms = (rows: typeof MONEY_IN): Term[] => {
    const columns = amounts(rows);
    return rows.map(([name], index) => ({
      name,
      figures: columns.map((column) => writing.money(column[index] ?? NO_MONEY)),
    }));
  };
  const sum = amounts(MONEY_IN).map((column) => writing.money(total(column)));
  return balance("Money balances", heads, terms(MONEY_IN), terms(MONEY_OUT), sum);
}
