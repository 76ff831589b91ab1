import type { PlanJson } from "../contract/index.js";
import { type Money, money, NO_MONEY } from "../quantity/index.js";
import type { View } from "./view.js";
import { coins } from "./writing.js";

/** The rows of a balance in the order they are printed: words, and the plan's total of that name. */
export type Rows<Key extends string> = readonly (readonly [name: string, key: Key])[];
export type WeightKey = Exclude<keyof PlanJson["weights"], "unit" | "avoidablePeel">;
type MoneyKey = Exclude<keyof PlanJson["money"], "currency">;

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
export const MONEY_IN: Rows<MoneyKey> = [
  ["Spent", "spent"],
  ["Value of what the house held", "stockValue"],
];
export const MONEY_OUT: Rows<MoneyKey> = [
  ["On plates", "inDishes"],
  ["Given away", "givenAway"],
  ["Closing stock", "closingStock"],
  ["Wasted", "wasted"],
];

/** One side of the balance of money, in whole coins that add up. */
export function moneyRows(
  plan: PlanJson,
  rows: Rows<MoneyKey>,
  { scenario }: View,
): readonly { readonly name: string; readonly amount: Money }[] {
  const amounts = coins(
    rows.map(([, key]) => money(plan.money[key])),
    scenario,
  );
  return rows.map(([name], index) => ({ name, amount: amounts[index] ?? NO_MONEY }));
}
