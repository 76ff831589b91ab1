import type { PlanChange } from "../contract/index.js";
import { Decimal, grams } from "../quantity/index.js";
import { amountOf, cutWords, type Writing } from "./writing.js";

const VERBS: Readonly<Record<PlanChange["kind"], string>> = {
  buy: "Buy",
  cut: "Cut",
  dish: "Make",
  keep: "Keep",
};

/** "Buy 28 heads of broccoli, 1 fewer", "Cut no leek in rings, 3 fewer", "Keep 400 g of stock, 100 g less". */
export function changeText(change: PlanChange, writing: Writing): string {
  const { kind, name, breakdown, service } = change;
  const after = new Decimal(change.after);
  const what = after.isZero() ? `no ${name}` : amountText(change, after, writing);
  const how = breakdown === null ? "" : ` ${cutWords(breakdown)}`;
  const when = service === null ? "" : ` for ${service}`;
  return `${VERBS[kind]} ${what}${how}${when}, ${differenceText(change, writing)}`;
}

/** The same in as few words as name a plan: "1 head of broccoli fewer". */
export function changeName(change: PlanChange, writing: Writing): string {
  const { kind, breakdown } = change;
  const amount = amountText(change, differenceOf(change).abs(), writing);
  const how = breakdown === null ? "" : ` ${cutWords(breakdown)}`;
  const verb = kind === "cut" ? "cut " : kind === "keep" ? "keep " : "";
  return `${verb}${amount}${how} ${directionOf(change)}`;
}

function amountText({ name, unit }: PlanChange, amount: Decimal, writing: Writing): string {
  return unit === "g" ? `${writing.weight(grams(amount))} of ${name}` : amountOf(writing, amount, unit, name);
}

function differenceText(change: PlanChange, writing: Writing): string {
  const amount = differenceOf(change).abs();
  const text = change.unit === "g" ? writing.weight(grams(amount)) : writing.decimal(amount, 2);
  return `${text} ${directionOf(change)}`;
}

function differenceOf({ before, after }: PlanChange): Decimal {
  return new Decimal(after).minus(before);
}

function directionOf(change: PlanChange): string {
  if (differenceOf(change).isPositive()) return "more";
  return change.unit === "g" ? "less" : "fewer";
}
