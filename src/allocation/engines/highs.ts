import type { Matrix } from "../matrix.js";
import { threadFile } from "./thread.js";
import { ThreadedEngine } from "./threaded.js";

/** It takes larger coefficients for infinite; smaller ones than it keeps are left out of every matrix. */
const MOST_COEFFICIENT = 1e15;

/** For plans of any size. Its "infeasible" and "unbounded" hold without presolve too. */
export class Highs extends ThreadedEngine {
  constructor(file = threadFile("highs-worker", import.meta.url)) {
    super("highs", file, refusalOf);
  }
}

/** Why HiGHS must not be asked this. */
export function refusalOf(matrix: Matrix): string | null {
  for (const values of [matrix.values, matrix.cost])
    for (const value of values) {
      if (Math.abs(value) >= MOST_COEFFICIENT) return `it must not be asked about the coefficient ${value}`;
    }
  return null;
}
