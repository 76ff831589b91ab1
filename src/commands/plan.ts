import { keepPlan } from "../keeping/index.js";
import { renderPages } from "../pages/index.js";
import type { Planned } from "../planning/index.js";
import { problemLines } from "../reading/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { exitCodeOf, type PlanFileOptions, planFile } from "./plan-file.js";
import { printPlan, printProofOfNone, printReasons } from "./plan-text.js";
import type { Terminal } from "./terminal.js";

export interface PlanCommandOptions extends PlanFileOptions {
  readonly json?: boolean;
  /** Keep the plan beside its scenario, with a weigh-in to fill in. */
  readonly keep?: boolean;
}

/** `plan FILE`: prints the plan, or as JSON, and writes its pages where asked. */
export async function planCommand(
  file: string,
  options: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const made: Planned[] = [];
  let isProofSaid = false;
  const isShownInFull = options.json === true || options.keep === true || options.out !== undefined;
  // What is printed does not say how sure the plan is.
  const asked = isShownInFull ? { ...options, risk: {} } : options;
  const code = await planFile(file, asked, terminal, {
    plan: (planned) => {
      made.push(planned);
      if (isProofSaid) printReasons(planned.plan, terminal);
      else printed(planned, options, terminal);
      pagesOf(planned, options, terminal);
    },
    noPlan: ({ plan }) => {
      if (options.json === true) return;
      printProofOfNone(plan, terminal);
      isProofSaid = true;
    },
  });
  const [planned] = made;
  if (options.keep !== true || planned === undefined || code !== EXIT.plan) return code;
  return keep(file, planned, options, terminal);
}

/** Keeps the plan beside its scenario; what is weighed already is not written over. */
async function keep(
  file: string,
  { plan, scenario }: Planned,
  { json }: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { kept, problems } = await keepPlan(file, plan, scenario);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (kept === null) return EXIT.wrongInput;
  const say = json === true ? terminal.complain : terminal.print;
  say(`Kept: ${kept.plan}`);
  say(`After service fill in ${kept.weighIn}, then: trim-to-use weigh-in ${file}`);
  return EXIT.plan;
}

function printed({ plan, scenario }: Planned, { json }: PlanCommandOptions, terminal: Terminal): void {
  if (json === true) terminal.print(JSON.stringify(plan, null, 2));
  else printPlan(plan, scenario, terminal);
}

function pagesOf({ plan, scenario }: Planned, { json, out }: PlanCommandOptions, terminal: Terminal): void {
  if (out === undefined || exitCodeOf(plan) === EXIT.noAnswer) return;
  writePages(out, renderPages(plan, scenario), json === true ? terminal.complain : terminal.print);
}
