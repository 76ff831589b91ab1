import { type Matrix, scaleOf, termsOf } from "../matrix.js";
import { threadFile } from "./thread.js";
import { ThreadedEngine } from "./threaded.js";

const LEAST_COEFFICIENT = 0.001;
const MOST_COEFFICIENT = 10_000;
const MOST_SIDE = 1e8;

/** For small plans. Its "infeasible" and "unbounded" are claims, to be confirmed by HiGHS. */
export class JavascriptLpSolver extends ThreadedEngine {
  constructor(file = threadFile("jslp-worker", import.meta.url)) {
    super("javascript-lp-solver", file, refusal);
  }
}

/**
 * Its free variables give wrong optima, and widely scaled rows false infeasibility; a row is rescaled by a
 * power of two first, so only the spread inside a row, or of the objective, counts.
 */
function refusal(matrix: Matrix): string | null {
  if (matrix.lower.includes(Number.NEGATIVE_INFINITY)) return "it must not be asked about free variables";
  for (let row = 0; row < matrix.rowLower.length; row += 1) {
    const values = [...termsOf(matrix, row)].map(([, value]) => value);
    if (!isWithinReach(values)) return "it must not be asked about coefficients so far apart in one row";
    const scale = scaleOf(values);
    for (const side of [matrix.rowLower[row] ?? 0, matrix.rowUpper[row] ?? 0])
      if (Number.isFinite(side) && Math.abs(side) * scale > MOST_SIDE)
        return "it must not be asked about a row so far from its coefficients";
  }
  if (!isWithinReach(matrix.cost)) return "it must not be asked about an objective so widely scaled";
  return null;
}

function isWithinReach(values: readonly number[] | Float64Array): boolean {
  const scale = scaleOf(values);
  for (const value of values) {
    const size = Math.abs(value) * scale;
    if (size !== 0 && (size < LEAST_COEFFICIENT || size > MOST_COEFFICIENT)) return false;
  }
  return true;
}
