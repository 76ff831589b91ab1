import { type Decimal, ZERO } from "../../quantity/index.js";
import type { Position, Problem } from "../../reading/index.js";
import { words } from "./words.js";

/** Rows that belong together, in the order their groups first appear. */
export function grouped<T>(rows: readonly T[], keyOf: (row: T) => string): { key: string; rows: T[] }[] {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups].map(([key, members]) => ({ key, rows: members }));
}

export function sumOf(rows: readonly { readonly fraction: Decimal }[]): Decimal {
  return rows.reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

/** Reports fractions that do not add up to `target` exactly, in percent and with the difference. */
export function checkSum(
  what: string,
  sum: Decimal,
  target: Decimal,
  position: Position,
  problems: Problem[],
): void {
  if (sum.eq(target)) return;
  const percent = (fraction: Decimal) => fraction.times(100).toString();
  const wording = words.doesNotClose(what, percent(sum), percent(target), percent(sum.minus(target)));
  problems.push({ ...position, ...wording });
}
