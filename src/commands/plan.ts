import { renderPages } from "../pages/index.js";
import type { Planned } from "../plan.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { exitCodeOf, type PlanFileOptions, planFile } from "./plan-file.js";
import { printPlan } from "./plan-text.js";
import type { Terminal } from "./terminal.js";

export interface PlanCommandOptions extends PlanFileOptions {
  readonly json?: boolean;
  readonly out?: string;
}

/** `plan FILE`: prints the plan, or as JSON, and writes its pages where asked. */
export async function planCommand(
  file: string,
  options: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return planFile(file, options, terminal, (planned) => show(planned, options, terminal));
}

function show({ plan, scenario }: Planned, { json, out }: PlanCommandOptions, terminal: Terminal): void {
  if (json === true) terminal.print(JSON.stringify(plan, null, 2));
  else printPlan(plan, scenario, terminal);
  if (out === undefined || exitCodeOf(plan) === EXIT.noAnswer) return;
  writePages(out, renderPages(plan, scenario), json === true ? terminal.complain : terminal.print);
}
