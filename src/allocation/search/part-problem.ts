import { type Matrix, termsOf } from "../matrix.js";
import type { Found, Problem } from "./problem.js";
import { objectiveAt } from "./problem.js";

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
