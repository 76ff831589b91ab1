import { type Matrix, termsOf } from "../matrix.js";
import type { Problem } from "./problem.js";

/** What is served and how it is cooked: the dishes made, the batches, the portions eaten and over, and their digits. */
export const MENU: ReadonlySet<string> = new Set(["made", "cook", "serve", "spare", "portion weight"]);

/** Columns that must be settled together, as whole numbers, for what is served to add up. */
export interface MenuGroup {
  readonly columns: readonly number[];
  /** The nearest whole menu to a point is the least of this matrix; its first columns are the group's. */
  nearest(point: Float64Array): Matrix;
}

/**
 * The menu in groups that share no row with one another: as a rule a course at a service. Only rows in which nothing
 * but the menu stands are kept to; what a menu takes of the items comes after.
 */
export function menuGroups(problem: Problem): MenuGroup[] {
  const { matrix, wholes, tags } = problem;
  const menu = wholes.filter((column) => MENU.has(tags[column]?.family ?? ""));
  const isMenu = new Set(menu);
  const isSettled = (column: number): boolean => matrix.lower[column] === matrix.upper[column];
  const rows = Array.from(matrix.rowLower, (_, row) => row).filter((row) => {
    const columns = [...termsOf(matrix, row)].map(([column]) => column);
    return (
      columns.some((column) => isMenu.has(column)) &&
      columns.every((column) => isMenu.has(column) || isSettled(column))
    );
  });
  const kept = new Set(rows);
  const groups: MenuGroup[] = [];
  const placed = new Set<number>();
  for (const seed of menu) {
    if (placed.has(seed)) continue;
    const columns: number[] = [];
    const groupRows = new Set<number>();
    const queue = [seed];
    placed.add(seed);
    for (let column = queue.pop(); column !== undefined; column = queue.pop()) {
      columns.push(column);
      for (const row of problem.rowsOf[column] ?? []) {
        if (!kept.has(row) || groupRows.has(row)) continue;
        groupRows.add(row);
        for (const [other] of termsOf(matrix, row)) {
          if (placed.has(other) || !isMenu.has(other)) continue;
          placed.add(other);
          queue.push(other);
        }
      }
    }
    groups.push({ columns, nearest: (point) => nearest(matrix, columns, [...groupRows], point) });
  }
  return groups;
}

/** Each column misses the point by what is above it less what is below, both counted by the column's own range. */
function nearest(
  matrix: Matrix,
  columns: readonly number[],
  rows: readonly number[],
  point: Float64Array,
): Matrix {
  const count = columns.length;
  const indexOf = new Map(columns.map((column, index) => [column, index]));
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  const rowLower: number[] = [];
  const rowUpper: number[] = [];
  for (const row of rows) {
    let settled = 0;
    for (const [column, value] of termsOf(matrix, row)) {
      const index = indexOf.get(column);
      if (index === undefined) settled += value * (matrix.lower[column] ?? 0);
      else {
        indices.push(index);
        values.push(value);
      }
    }
    starts.push(indices.length);
    rowLower.push((matrix.rowLower[row] ?? 0) - settled);
    rowUpper.push((matrix.rowUpper[row] ?? 0) - settled);
  }
  columns.forEach((column, index) => {
    indices.push(index, count + index, 2 * count + index);
    values.push(1, -1, 1);
    starts.push(indices.length);
    rowLower.push(point[column] ?? 0);
    rowUpper.push(point[column] ?? 0);
  });
  const own = (from: Float64Array): number[] => columns.map((column) => from[column] ?? 0);
  const misses = Array<number>(2 * count);
  return {
    most: false,
    constant: 0,
    cost: Float64Array.from([...Array<number>(count).fill(0), ...misses.fill(1)]),
    lower: Float64Array.from([...own(matrix.lower), ...misses.fill(0)]),
    upper: Float64Array.from([...own(matrix.upper), ...misses.fill(Number.POSITIVE_INFINITY)]),
    whole: Uint8Array.from([...Array<number>(count).fill(1), ...misses.fill(0)]),
    rowLower: Float64Array.from(rowLower),
    rowUpper: Float64Array.from(rowUpper),
    starts: Int32Array.from(starts),
    columns: Int32Array.from(indices),
    values: Float64Array.from(values),
  };
}
