import { type EngineName, Engines } from "../allocation/index.js";
import { hasPlan, type PlanJson } from "../contract/index.js";
import type { Aim } from "../kitchen/index.js";
import { CostingError } from "../ledger/index.js";
import { loadScenario } from "../load.js";
import { pageAssets, renderPages } from "../pages/index.js";
import { type Planned, planScenario } from "../plan.js";
import { progressLine } from "../progress-line.js";
import { problemText } from "../reading/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { printPlan } from "./plan-text.js";
import type { Terminal } from "./terminal.js";
import { folderObstacle, writeFolder } from "./write-folder.js";

export interface PlanCommandOptions {
  readonly aim?: Aim;
  readonly seconds: number;
  readonly engine?: EngineName;
  readonly json?: boolean;
  readonly out?: string;
}

/** `plan FILE`: prints the plan, or as JSON, and writes its pages where asked. */
export async function planCommand(
  file: string,
  options: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { scenario, problems } = await loadScenario(file, options.aim);
  for (const problem of problems) terminal.complain(problemText(problem));
  if (scenario === null || problems.length > 0) return EXIT.wrongInput;
  const obstacle = options.out === undefined ? null : folderObstacle(options.out);
  if (obstacle !== null) {
    terminal.complain(obstacle);
    return EXIT.wrongInput;
  }
  const engines = new Engines();
  try {
    const { seconds, engine } = options;
    const planned = await planScenario(scenario, {
      engines,
      seconds,
      ...(engine === undefined ? {} : { engine }),
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
    });
    terminal.progress(null);
    show(planned, options, terminal);
    return exitCodeOf(planned.plan);
  } catch (error) {
    if (!(error instanceof CostingError)) throw error;
    for (const { what, remedy } of error.problems) terminal.complain(`${file}: ${what}. ${remedy}`);
    return EXIT.wrongInput;
  } finally {
    await engines.close();
  }
}

function show({ plan, scenario }: Planned, { json, out }: PlanCommandOptions, terminal: Terminal): void {
  if (json === true) terminal.print(JSON.stringify(plan, null, 2));
  else printPlan(plan, scenario, terminal);
  if (out === undefined || exitCodeOf(plan) === EXIT.noAnswer) return;
  const pages = renderPages(plan, scenario);
  writeFolder(out, [
    ...pages.map(({ slug, html }) => ({ path: `${slug}.html`, content: html })),
    ...pageAssets().map(({ path, content }) => ({ path: `assets/${path}`, content })),
  ]);
  const say = json === true ? terminal.complain : terminal.print;
  say(`Pages: ${out}/${pages[0]?.slug ?? ""}.html`);
}

/** 0 for a plan, 1 where it is proved that there is none, 3 where there is no answer. */
function exitCodeOf(plan: PlanJson): ExitCode {
  if (hasPlan(plan)) return EXIT.plan;
  return plan.outcome.kind === "infeasible" ? EXIT.noPlan : EXIT.noAnswer;
}
