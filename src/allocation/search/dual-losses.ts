import { termsOf } from "../matrix.js";
import type { Prices, Problem } from "./problem.js";

/** By how much a subject adds to what a point is worse by than the relaxation. */
export type LossOf = (key: string | number) => number;

/**
 * What a point is worse by than the relaxation's best is, by linear programming's duality, the sum over columns and
 * rows of their price times how far they are from the side it stands for. Here it is gathered by item, cooking and
 * service, so that the search looks first where most is lost.
 */
export function dualLosses(problem: Problem, prices: Prices, point: Float64Array): LossOf {
  const { matrix, tags } = problem;
  const sums = new Map<string | number, number>();
  const add = (key: string | number, loss: number): void => {
    sums.set(key, (sums.get(key) ?? 0) + loss);
  };
  tags.forEach(({ item, dish, service }, column) => {
    const price = prices.columns[column] ?? 0;
    const value = point[column] ?? 0;
    const side = price > 0 ? (matrix.lower[column] ?? 0) : (matrix.upper[column] ?? 0);
    const loss = Number.isFinite(side) ? Math.max(0, price * (value - side)) : 0;
    if (loss === 0) return;
    if (item !== undefined) add(item, loss);
    if (dish !== undefined) add(`${dish} ${service}`, loss);
    if (service !== undefined) add(service, loss);
  });
  for (let row = 0; row < matrix.rowLower.length; row++) {
    const price = prices.rows[row] ?? 0;
    if (price === 0) continue;
    let activity = 0;
    const keys = new Set<string | number>();
    for (const [column, value] of termsOf(matrix, row)) {
      activity += value * (point[column] ?? 0);
      const { item, dish, service } = tags[column] ?? {};
      if (item !== undefined) keys.add(item);
      if (dish !== undefined) keys.add(`${dish} ${service}`);
      if (service !== undefined) keys.add(service);
    }
    const side = price > 0 ? (matrix.rowLower[row] ?? 0) : (matrix.rowUpper[row] ?? 0);
    const loss = Number.isFinite(side) ? Math.max(0, price * (activity - side)) : 0;
    for (const key of keys) add(key, loss / keys.size);
  }
  return (key) => sums.get(key) ?? 0;
}
