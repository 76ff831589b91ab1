import { type Matrix, termsOf } from "../matrix.js";
import type { Model, Tag } from "../model.js";

/** What the search works on: the question as a matrix whose least is sought, with what each column is about. */
export interface Problem {
  readonly matrix: Matrix;
  readonly tags: readonly Tag[];
  /** Whole columns that may move. */
  readonly wholes: readonly number[];
  /** Rows in which each column stands. */
  readonly rowsOf: readonly (readonly number[])[];
}

/** A point with its objective, as the search's solver computed it: nothing about it has been certified. */
export interface Found {
  readonly point: Float64Array;
  readonly objective: number;
}

/** The least of what a matrix asks for: the most of something is the least of its negative. */
export function leastOfMatrix(matrix: Matrix): Matrix {
  if (!matrix.most) return matrix;
  return { ...matrix, most: false, constant: -matrix.constant, cost: matrix.cost.map((cost) => -cost) };
}

/** Whole numbers that a search could settle, which counting goings is not. */
export function integerCount({ variables }: Model): number {
  return variables.filter(
    ({ integer, lower, upper, tag }) => integer && lower < upper && tag.family !== "used",
  ).length;
}

export function problemOf(matrix: Matrix, tags: readonly Tag[]): Problem {
  const rowsOf: number[][] = Array.from(matrix.cost, () => []);
  for (let row = 0; row < matrix.rowLower.length; row++) {
    for (const [column] of termsOf(matrix, row)) rowsOf[column]?.push(row);
  }
  const wholes = tags.flatMap((_, column) =>
    matrix.whole[column] === 1 && (matrix.lower[column] ?? 0) < (matrix.upper[column] ?? 0) ? [column] : [],
  );
  return { matrix, tags, wholes, rowsOf };
}

export function objectiveAt(matrix: Matrix, point: Float64Array): number {
  return matrix.cost.reduce((sum, cost, column) => sum + cost * (point[column] ?? 0), matrix.constant);
}

/** What the relaxation's best point charges for moving a column or a row off its bound. */
export interface Prices {
  readonly columns: Float64Array;
  readonly rows: Float64Array;
}

/** What the search asks of the solver beneath it. */
export interface Solver {
  /** The matrix without its whole numbers, kept for solving again as bounds change. */
  relax(matrix: Matrix): Relaxation;
  /** The best point found within an effort, from a start where there is one; null where it found none. */
  improve(matrix: Matrix, start: Float64Array | null, effort: Effort): Improved | null;
}

export interface Relaxation {
  bound(column: number, lower: number, upper: number): void;
  /** Null where there is no point within the bounds. */
  solve(): Float64Array | null;
  /** Of the point last found. */
  prices(): Prices;
  dispose(): void;
}

export interface Effort {
  readonly seconds: number;
  /** Absolute: a point this near to the best there is will do. */
  readonly within: number;
  /** Asked now and then: whether to end before its time. */
  readonly stop?: () => boolean;
  /** Told of each point that is better than those before it. */
  readonly onBetter?: (found: Found) => void;
}

export interface Improved extends Found {
  /** Whether it is the best there is. */
  readonly proved: boolean;
}

/** A problem in which only some columns are free: what the others come to is moved to the sides of the rows. */
export interface PartProblem {
  readonly matrix: Matrix;
  /** The given point's values in its columns. */
  readonly start: Float64Array;
  /** A point of the part, set into the given one. */
  whole(part: Float64Array): Found;
}

/** The rows that touch a free column, with those columns alone. */
export function partOf(
  { matrix, rowsOf }: Problem,
  point: Float64Array,
  free: ReadonlySet<number>,
): PartProblem {
  const columns = [...free].sort((a, b) => a - b);
  const indexOf = new Map(columns.map((column, index) => [column, index]));
  const rows = [...new Set(columns.flatMap((column) => rowsOf[column] ?? []))].sort((a, b) => a - b);
  const starts = new Int32Array(rows.length + 1);
  const indices: number[] = [];
  const values: number[] = [];
  const rowLower = new Float64Array(rows.length);
  const rowUpper = new Float64Array(rows.length);
  rows.forEach((row, index) => {
    let fixed = 0;
    for (const [column, value] of termsOf(matrix, row)) {
      const at = indexOf.get(column);
      if (at === undefined) fixed += value * (point[column] ?? 0);
      else {
        indices.push(at);
        values.push(value);
      }
    }
    starts[index + 1] = indices.length;
    rowLower[index] = (matrix.rowLower[row] ?? 0) - fixed;
    rowUpper[index] = (matrix.rowUpper[row] ?? 0) - fixed;
  });
  const pick = (all: Float64Array): Float64Array => Float64Array.from(columns, (column) => all[column] ?? 0);
  const cost = pick(matrix.cost);
  const start = pick(point);
  const moved = cost.reduce((sum, each, index) => sum + each * (start[index] ?? 0), 0);
  return {
    matrix: {
      most: false,
      constant: objectiveAt(matrix, point) - moved,
      cost,
      lower: pick(matrix.lower),
      upper: pick(matrix.upper),
      whole: Uint8Array.from(columns, (column) => matrix.whole[column] ?? 0),
      rowLower,
      rowUpper,
      starts,
      columns: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    start,
    whole: (part) => {
      const all = Float64Array.from(point);
      columns.forEach((column, index) => {
        const value = part[index] ?? 0;
        all[column] = matrix.whole[column] === 1 ? Math.round(value) : value;
      });
      return { point: all, objective: objectiveAt(matrix, all) };
    },
  };
}
