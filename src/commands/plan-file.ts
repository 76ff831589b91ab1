import type { EngineName } from "../allocation/index.js";
import { hasPlan, type PlanJson } from "../contract/index.js";
import type { RiskOptions } from "../insight/index.js";
import type { Aim } from "../kitchen/index.js";
import {
  type Planned,
  type PlanOptions,
  planCautiously,
  planScenario,
  progressLine,
} from "../planning/index.js";
import { answering } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";

export interface PlanFileOptions {
  readonly aim?: Aim;
  readonly seconds: number;
  readonly engine?: EngineName;
  readonly risk?: RiskOptions;
  /** Plan so that every dish is there in full in so many of a hundred cases. */
  readonly cautious?: number;
  /** A folder that pages are to be written to. */
  readonly out?: string;
}

/** Plans a scenario file and hands the plan on; input that is wrong is complained of instead. */
export async function planFile(
  file: string,
  { aim, seconds, engine, out, cautious, risk = {} }: PlanFileOptions,
  terminal: Terminal,
  show: (planned: Planned) => void,
): Promise<ExitCode> {
  return answering({ file, aim, out }, terminal, async (scenario, engines) => {
    const options: PlanOptions = {
      engines,
      seconds,
      risk,
      ...(engine === undefined ? {} : { engine }),
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
    };
    const planned = await (cautious === undefined
      ? planScenario(scenario, options)
      : planCautiously(scenario, { ...options, level: cautious / 100 }));
    terminal.progress(null);
    show(planned);
    return exitCodeOf(planned.plan);
  });
}

/** 0 for a plan, 1 where it is proved that there is none, 3 where there is no answer. */
export function exitCodeOf(plan: PlanJson): ExitCode {
  if (hasPlan(plan)) return EXIT.plan;
  return plan.outcome.kind === "infeasible" ? EXIT.noPlan : EXIT.noAnswer;
}
