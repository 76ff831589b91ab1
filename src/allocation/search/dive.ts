import { type Matrix, termsOf } from "../matrix.js";
import type { Problem, Relaxation, Solver } from "./problem.js";

/**
 * Families of whole numbers in the order they are settled once the menu is: the pieces it takes, then what must be
 * cut for it, where and at which price that is bought, then how much is, then what is over. A family not named comes last.
 */
const ORDER = ["go", "draw", "cut", "order", "price break", "buy", "keep item", "bin"];
/** Of the fractions left, the highest so many are rounded up at a time. */
const AT_A_TIME = 0.3;
const WHOLE = 1e-6;
/** A menu need only be near, for the search comes after; but without one there is no point, however slow the machine. */
const MENU_EFFORT = { seconds: 3600, within: 1 };

/**
 * Rounds the relaxation to a point: each group of the menu to the nearest whole menu; then family by family, the
 * highest fractions going up together, or half as many where that leaves no point; a single one that cannot go up goes
 * down. Null where that fails too, or where `stop` says so.
 */
export function dive(
  problem: Problem,
  solver: Solver,
  { relaxation, relaxed }: { relaxation: Relaxation; relaxed: Float64Array },
  stop: () => boolean,
): Float64Array | null {
  const bounds = new Bounds(problem, relaxation);
  const menu = roundMenu(menuGroups(problem), solver, bounds, relaxed, stop);
  const point = menu === null ? null : roundOthers(problem, bounds, menu, stop);
  for (const column of point === null ? [] : problem.wholes) {
    if (point !== null) point[column] = Math.round(point[column] ?? 0);
  }
  return point;
}

/** The relaxation with the bounds it has come to. */
class Bounds {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly #relaxation: Relaxation;

  constructor({ matrix }: Problem, relaxation: Relaxation) {
    this.lower = Float64Array.from(matrix.lower);
    this.upper = Float64Array.from(matrix.upper);
    this.#relaxation = relaxation;
  }

  set(column: number, lower: number, upper: number): void {
    this.lower[column] = lower;
    this.upper[column] = upper;
    this.#relaxation.bound(column, lower, upper);
  }

  of(column: number): [lower: number, upper: number] {
    return [this.lower[column] ?? 0, this.upper[column] ?? 0];
  }

  settle(column: number, value: number): void {
    this.set(column, value, value);
  }

  solve(): Float64Array | null {
    return this.#relaxation.solve();
  }
}

/** All of the groups to what is nearest to one point; where that leaves none, the first half, then the second anew. */
function roundMenu(
  groups: readonly MenuGroup[],
  solver: Solver,
  bounds: Bounds,
  at: Float64Array,
  stop: () => boolean,
): Float64Array | null {
  const before = groups.map(({ columns }) => columns.map((column) => bounds.of(column)));
  for (const { columns, nearest } of groups) {
    if (stop()) return null;
    const isSettled = columns.every((column) => isWhole(at[column] ?? 0));
    const menu = isSettled
      ? columns.map((column) => at[column] ?? 0)
      : solver.improve(nearest(at), null, MENU_EFFORT)?.point;
    if (menu === undefined) return null;
    columns.forEach((column, index) => {
      bounds.settle(column, Math.round(menu[index] ?? 0));
    });
  }
  const point = bounds.solve();
  if (point !== null || groups.length <= 1) return point;
  groups.forEach(({ columns }, group) => {
    columns.forEach((column, index) => {
      bounds.set(column, ...(before[group]?.[index] ?? bounds.of(column)));
    });
  });
  const half = Math.ceil(groups.length / 2);
  const first = roundMenu(groups.slice(0, half), solver, bounds, at, stop);
  return first === null ? null : roundMenu(groups.slice(half), solver, bounds, first, stop);
}

function roundOthers(
  { wholes, tags }: Problem,
  bounds: Bounds,
  menu: Float64Array,
  stop: () => boolean,
): Float64Array | null {
  const familyOf = (column: number): string => tags[column]?.family ?? "";
  const others = wholes.filter((column) => !MENU.has(familyOf(column)));
  let point: Float64Array | null = menu;
  for (const family of [...ORDER, null]) {
    const columns = others.filter((column) =>
      family === null ? !ORDER.includes(familyOf(column)) : familyOf(column) === family,
    );
    while (point !== null) {
      const at: Float64Array = point;
      const fractions = columns
        .map((column) => ({ column, fraction: (at[column] ?? 0) - Math.floor((at[column] ?? 0) + WHOLE) }))
        .filter(({ fraction }) => fraction > WHOLE)
        .sort((a, b) => b.fraction - a.fraction || a.column - b.column);
      if (fractions.length === 0) break;
      if (stop()) return null;
      const highest = fractions.slice(0, Math.ceil(fractions.length * AT_A_TIME));
      point = roundUp(
        highest.map(({ column }) => column),
        at,
        bounds,
      );
    }
    if (point === null) return null;
    for (const column of columns) bounds.settle(column, Math.round(point[column] ?? 0));
  }
  return bounds.solve();
}

function roundUp(columns: readonly number[], at: Float64Array, bounds: Bounds): Float64Array | null {
  const before = columns.map((column) => bounds.lower[column] ?? 0);
  for (const column of columns) bounds.set(column, Math.ceil(at[column] ?? 0), bounds.upper[column] ?? 0);
  const found = bounds.solve();
  if (found !== null) return found;
  columns.forEach((column, index) => {
    bounds.set(column, before[index] ?? 0, bounds.upper[column] ?? 0);
  });
  const [only] = columns;
  if (columns.length > 1) return roundUp(columns.slice(0, Math.ceil(columns.length / 2)), at, bounds);
  if (only === undefined) return null;
  bounds.set(only, bounds.lower[only] ?? 0, Math.floor(at[only] ?? 0));
  return bounds.solve();
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) <= WHOLE;
}

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
