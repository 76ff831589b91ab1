import { loadScenario } from "../load.js";
import { problemText } from "../reading/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";

/** `check FILE`: every problem of the file, and nothing else. */
export async function checkCommand(file: string, terminal: Terminal): Promise<ExitCode> {
  const { scenario, problems } = await loadScenario(file);
  for (const problem of problems) terminal.complain(problemText(problem));
  if (scenario === null || problems.length > 0) return EXIT.wrongInput;
  terminal.print(`${file}: no problems.`);
  return EXIT.plan;
}
