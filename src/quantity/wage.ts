import { type Money, money } from "./exact.js";

/** A wage for an hour as it is written, "14.00 / h"; null where it cannot be read. */
export function hourlyWage(text: string): Money | null {
  const figure = /^(\d+(?:\.\d{1,4})?)\s*\/\s*h(?:our)?$/.exec(text.trim())?.[1];
  return figure === undefined ? null : money(figure);
}

/** What to say of one that cannot. */
export const WAGE_REMEDY = "Write a wage for an hour, such as 14.00 / h";
