import { pageAssets, renderPages } from "../pages/index.js";
import type { Planned } from "../plan.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { exitCodeOf, type PlanFileOptions, planFile } from "./plan-file.js";
import { printPlan } from "./plan-text.js";
import type { Terminal } from "./terminal.js";
import { folderObstacle, writeFolder } from "./write-folder.js";

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
  const obstacle = options.out === undefined ? null : folderObstacle(options.out);
  if (obstacle !== null) {
    terminal.complain(obstacle);
    return EXIT.wrongInput;
  }
  return planFile(file, options, terminal, (planned) => show(planned, options, terminal));
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
