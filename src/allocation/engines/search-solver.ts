import type { HighsCallbackMap, InterruptCallbackEvent, PassiveCallbackEvent } from "highs";
import type { Matrix } from "../matrix.js";
import type { Effort, Improved, Relaxation, Solver } from "../search/index.js";
import { highs, openModel, PRIMAL_FEASIBLE } from "./highs-model.js";

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
