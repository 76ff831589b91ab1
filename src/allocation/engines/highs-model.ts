import { createRequire } from "node:module";
import type { Highs, HighsCallbackMap, InterruptCallbackEvent, Model, PassiveCallbackEvent } from "highs";
import type { Matrix } from "../matrix.js";
import type { Effort, Improved, Relaxation, Solver } from "../search/index.js";

// Its types describe the CommonJS file, which Node does not choose for an `import`.
const load: typeof import("highs").default = createRequire(import.meta.url)("highs");

/**
 * Absolute, of rows, bounds and whole numbers alike: tighter than what `certify` allows, so that rounding whole numbers
 * breaks no row.
 */
const WITHIN = 1e-7;
/** Absolute, of the objective. */
const LEAST_GAP = 1e-9;
/**
 * The bit of presolve's rule 16 (enumeration, by a name from memory), left off: with it HiGHS 1.15.1 called a plan of
 * 15 items and 40 dishes proved best that another, certified, beat by 0.7 %. A small model of it is in the tests.
 */
const ENUMERATION = 1 << 16;
export const PRIMAL_FEASIBLE = 2;

export const highs: Highs = await load();

/** A matrix as HiGHS keeps it; whole numbers are left out where only the relaxation is wanted. Dispose of it. */
export function openModel(matrix: Matrix, whole = matrix.whole): Model {
  const { objectiveSense, variableType } = highs.constants;
  const model = highs.createModel({
    numCols: matrix.cost.length,
    numRows: matrix.rowLower.length,
    sense: matrix.most ? objectiveSense.maximize : objectiveSense.minimize,
    offset: matrix.constant,
    colCost: matrix.cost,
    colLower: matrix.lower,
    colUpper: matrix.upper,
    rowLower: matrix.rowLower,
    rowUpper: matrix.rowUpper,
    matrix: {
      format: "csr",
      numRows: matrix.rowLower.length,
      numCols: matrix.cost.length,
      starts: matrix.starts,
      indices: matrix.columns,
      values: matrix.values,
    },
    ...(whole.includes(1) && {
      integrality: Array.from(whole, (one) => (one === 1 ? variableType.integer : variableType.continuous)),
    }),
  });
  model.options.set({
    log_to_console: false,
    mip_abs_gap: LEAST_GAP,
    presolve_rule_off: ENUMERATION,
    mip_feasibility_tolerance: WITHIN,
    primal_feasibility_tolerance: WITHIN,
  });
  return model;
}

/** HiGHS as the solver beneath the search. */
export const searchSolver: Solver = { relax, improve };

function relax(matrix: Matrix): Relaxation {
  const model = openModel(matrix, new Uint8Array(matrix.whole.length));
  // Presolve would forget the basis from which the next solve goes on.
  model.options.set({ output_flag: false, presolve: "off" });
  return {
    bound: (column, lower, upper) => model.changeColBounds(column, lower, upper),
    solve: () =>
      model.run().modelStatus === highs.constants.modelStatus.optimal ? model.getSolution().colValue : null,
    prices: () => {
      const { colDual: columns, rowDual: rows } = model.getSolution();
      return { columns, rows };
    },
    dispose: () => model.dispose(),
  };
}

function improve(matrix: Matrix, start: Float64Array | null, effort: Effort): Improved | null {
  const model = openModel(matrix);
  try {
    model.options.set({
      output_flag: false,
      // It looks for a first point, which there is already, or comes sooner by branching.
      mip_heuristic_run_feasibility_jump: false,
      time_limit: effort.seconds,
      mip_rel_gap: 0,
      mip_abs_gap: effort.within,
      // In haste: a cut that does nothing leaves the relaxation at once.
      mip_lp_age_limit: 0,
    });
    if (start !== null) model.setSolution({ colValue: start });
    const { modelStatus } = model.run(callbacks(effort));
    const objective = model.getObjectiveValue();
    if (model.info.get("primal_solution_status") !== PRIMAL_FEASIBLE || !Number.isFinite(objective))
      return null;
    const proved = modelStatus === highs.constants.modelStatus.optimal;
    return { point: model.getSolution().colValue, objective, proved };
  } finally {
    model.dispose();
  }
}

function callbacks({ stop, onBetter }: Effort): HighsCallbackMap {
  const { mipImprovingSolution, mipInterrupt } = highs.constants.callbackType;
  return {
    ...(onBetter !== undefined && {
      [mipImprovingSolution]: ({ data }: PassiveCallbackEvent) => {
        const { mip_solution: point, objective_function_value: objective } = data;
        if (point !== undefined && objective !== undefined) onBetter({ point, objective });
      },
    }),
    ...(stop !== undefined && {
      [mipInterrupt]: ({ interrupt }: InterruptCallbackEvent) => {
        if (stop()) interrupt();
      },
    }),
  };
}
