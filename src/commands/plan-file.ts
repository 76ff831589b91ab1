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
  /** From the start of the program, `begun` seconds before the call. */
  readonly seconds: number;
  readonly begun?: number;
  readonly engine?: EngineName;
  readonly risk?: RiskOptions;
  /** Plan so that every dish is there in full in so many of a hundred cases. */
  readonly cautious?: number;
  /** A folder that pages are to be written to. */
  readonly out?: string;
}

/** What a plan is shown with: the plan as it is made, and before that the proof that there is none. */
export interface Shown {
  readonly plan: (planned: Planned) => void;
  readonly noPlan?: (proved: Planned) => void;
}

/** Plans a scenario file and hands the plan on; input that is wrong is complained of instead. */
export async function planFile(
  file: string,
  { aim, seconds, begun = 0, engine, out, cautious, risk }: PlanFileOptions,
  terminal: Terminal,
  show: Shown,
): Promise<ExitCode> {
  return answering({ file, aim, out }, terminal, async (scenario, engines, spent) => {
    const options: PlanOptions = {
      engines,
      seconds: Math.max(0, seconds - begun - spent()),
      ...(risk === undefined ? {} : { risk: { seconds, ...risk } }),
      ...(engine === undefined ? {} : { engine }),
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
      onNoPlan: (proved) => {
        show.noPlan?.(proved);
        terminal.progress(`Looking for what would make it possible; at most ${seconds} s in all`);
      },
    };
    const planned = await (cautious === undefined
      ? planScenario(scenario, options)
      : planCautiously(scenario, { ...options, level: cautious / 100 }));
    terminal.progress(null);
    show.plan(planned);
    return exitCodeOf(planned.plan);
  });
}

/** 0 for a plan, 1 where it is proved that there is none, 3 where there is no answer. */
export function exitCodeOf(plan: PlanJson): ExitCode {
  if (hasPlan(plan)) return EXIT.plan;
  return plan.outcome.kind === "infeasible" ? EXIT.noPlan : EXIT.noAnswer;
}
