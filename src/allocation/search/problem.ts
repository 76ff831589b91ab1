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
export function wholesToSearch({ variables }: Model): number {
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
