import type { Matrix } from "../matrix.js";
import type { Prices } from "./losses.js";
import type { Found } from "./problem.js";

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
