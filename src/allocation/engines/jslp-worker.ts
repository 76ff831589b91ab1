import { createRequire } from "node:module";
import { parentPort } from "node:worker_threads";
import type { Model, SolveResult } from "javascript-lp-solver";
import { type Matrix, scaleOf, termsOf } from "../matrix.js";
import { type Ask, lateVerdict, type News, READY, type Verdict } from "./threads.js";

// Its types describe a `default` that the CommonJS file has not; for one aim it answers with a SolveResult.
const solver: { Solve(model: Model): SolveResult } = createRequire(import.meta.url)("javascript-lp-solver");

const AIM = "aim";

/**
 * The engine keeps every variable at zero or more and forgets a bound, so each variable is measured from its
 * lower bound, upper bounds become rows, and a variable that cannot move is left out. Every row, and the aim,
 * is multiplied by a power of two, which is exact, to keep it near one.
 */
function translate(matrix: Matrix): Model {
  const variables: Model["variables"] = {};
  const constraints: Record<string, { min?: number; max?: number; equal?: number }> = {};
  const ints: Record<string, boolean> = {};
  const column = (index: number) => {
    const name = `v${index}`;
    variables[name] ??= {};
    return variables[name];
  };
  const lower = (index: number) => matrix.lower[index] ?? 0;
  const moves = (index: number) => matrix.upper[index] !== lower(index);

  const scale = scaleOf(matrix.cost);
  matrix.cost.forEach((cost, index) => {
    if (!moves(index)) return;
    const coefficients = column(index);
    coefficients[AIM] = cost * scale;
    if (matrix.whole[index] === 1) ints[`v${index}`] = true;
    const upper = matrix.upper[index] ?? Number.POSITIVE_INFINITY;
    if (upper === Number.POSITIVE_INFINITY) return;
    constraints[`u${index}`] = { max: upper - lower(index) };
    coefficients[`u${index}`] = 1;
  });

  matrix.rowLower.forEach((rowLower, row) => {
    const rowUpper = matrix.rowUpper[row] ?? Number.POSITIVE_INFINITY;
    const terms = [...termsOf(matrix, row)];
    const rowScale = scaleOf(terms.map(([, value]) => value));
    const shift = terms.reduce((sum, [index, value]) => sum + value * lower(index), 0);
    const least = (rowLower - shift) * rowScale;
    const most = (rowUpper - shift) * rowScale;
    if (rowLower === rowUpper) constraints[`c${row}`] = { equal: least };
    else if (least > Number.NEGATIVE_INFINITY || most < Number.POSITIVE_INFINITY)
      constraints[`c${row}`] = {
        ...(least > Number.NEGATIVE_INFINITY && { min: least }),
        ...(most < Number.POSITIVE_INFINITY && { max: most }),
      };
    else return;
    for (const [index, value] of terms) if (moves(index)) column(index)[`c${row}`] = value * rowScale;
  });

  return {
    optimize: AIM,
    opType: matrix.most ? "max" : "min",
    variables,
    constraints,
    ints,
    // Its presolve gives wrong answers. A cycle it finds it calls infeasible; left to itself a cycle runs into the
    // thread's deadline, which is honest. A stop by its own `timeout` is not told apart from a proof, so it has none.
    options: { presolve: false, exitOnCycles: false },
  };
}

function answer(matrix: Matrix): Verdict {
  const model = translate(matrix);
  const result = solver.Solve(model);
  if (!result.feasible) return { kind: "infeasible" };
  if (result.bounded === false) return { kind: "unbounded" };
  if (Object.keys(model.ints ?? {}).length > 0 && result.isIntegral !== true)
    return { kind: "failed", reason: "it returned a point that is not whole", stoppedBy: null };
  const point = matrix.lower.map((lower, index) => lower + Number(result[`v${index}`] ?? 0));
  const shift = matrix.cost.reduce(
    (sum, cost, index) => sum + cost * (matrix.lower[index] ?? 0),
    matrix.constant,
  );
  const objective = result.result / scaleOf(matrix.cost) + shift;
  return { kind: "solved", point, objective, bound: objective, stoppedBy: null };
}

parentPort?.on("message", (ask: Ask) => {
  const news = lateVerdict(ask) ?? { kind: "verdict", id: ask.id, verdict: answer(ask.matrix) };
  parentPort?.postMessage(news satisfies News);
});
parentPort?.postMessage(READY);
