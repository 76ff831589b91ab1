import { problemsOf } from "../kitchen-files/index.js";
import { problemLines } from "../reading/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";

/** `check FILE`: every problem of the scenario or test card, and nothing else. */
export async function checkCommand(file: string, terminal: Terminal): Promise<ExitCode> {
  const problems = await problemsOf(file);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (problems.length > 0) return EXIT.wrongInput;
  terminal.print(`${file}: no problems.`);
  return EXIT.plan;
}
