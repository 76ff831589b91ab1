import { type EngineName, Engines } from "../allocation/index.js";
import { hasPlan, type PlanJson } from "../contract/index.js";
import type { RiskOptions } from "../insight/index.js";
import type { Aim } from "../kitchen/index.js";
import { CostingError } from "../ledger/index.js";
import { loadScenario } from "../load.js";
import { type Planned, planScenario } from "../plan.js";
import { progressLine } from "../progress-line.js";
import { problemText } from "../reading/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";

export interface PlanFileOptions {
  readonly aim?: Aim;
  readonly seconds: number;
  readonly engine?: EngineName;
  readonly risk?: RiskOptions;
}

/** Plans a scenario file and hands the plan on; input that is wrong is complained of instead. */
export async function planFile(
  file: string,
  { aim, seconds, engine, risk = {} }: PlanFileOptions,
  terminal: Terminal,
  show: (planned: Planned) => void,
): Promise<ExitCode> {
  const { scenario, problems } = await loadScenario(file, aim);
  for (const problem of problems) terminal.complain(problemText(problem));
  if (scenario === null || problems.length > 0) return EXIT.wrongInput;
  const engines = new Engines();
  try {
    const planned = await planScenario(scenario, {
      engines,
      seconds,
      risk,
      ...(engine === undefined ? {} : { engine }),
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
    });
    terminal.progress(null);
    show(planned);
    return exitCodeOf(planned.plan);
  } catch (error) {
    if (!(error instanceof CostingError)) throw error;
    for (const { what, remedy } of error.problems) terminal.complain(`${file}: ${what}. ${remedy}`);
    return EXIT.wrongInput;
  } finally {
    await engines.close();
  }
}

/** 0 for a plan, 1 where it is proved that there is none, 3 where there is no answer. */
export function exitCodeOf(plan: PlanJson): ExitCode {
  if (hasPlan(plan)) return EXIT.plan;
  return plan.outcome.kind === "infeasible" ? EXIT.noPlan : EXIT.noAnswer;
}
