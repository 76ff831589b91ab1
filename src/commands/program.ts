import { readFileSync } from "node:fs";
import { Command, CommanderError } from "commander";
import { problemText, reasonOf } from "../reading/index.js";
import { diskProblem } from "../records/index.js";
import { addCommands, type Run } from "./command-line.js";
import { EXIT, type ExitCode } from "./terminal.js";

const EXIT_HELP = `
Exit codes: 0 a plan; 1 no plan exists; 2 the input is wrong; 3 no answer in the time, or our fault.`;

/** What a command line is run with, and where its help and what is wrong with it are written. */
interface Surroundings extends Omit<Run, "end"> {
  readonly stdout: { write(text: string): unknown };
  readonly stderr: { write(text: string): unknown };
}

/** Runs the command line of these arguments, without Node and the program's file, and gives its exit code. */
export async function runProgram(
  args: readonly string[],
  { stdout, stderr, ...run }: Surroundings,
): Promise<ExitCode> {
  const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as {
    version: string;
  };
  let code: ExitCode = EXIT.plan;
  const main = new Command("trim-to-use")
    .description("Plan whole ingredients into dishes so that every part worth eating ends on a plate.")
    .version(version)
    .exitOverride()
    .configureOutput({ writeOut: (text) => stdout.write(text), writeErr: (text) => stderr.write(text) })
    .addHelpText("after", EXIT_HELP);
  const end = (ended: ExitCode) => {
    code = ended;
  };
  addCommands(main, { ...run, end });
  try {
    await main.parseAsync(args, { from: "user" });
    return code;
  } catch (error) {
    return failed(error, run.terminal);
  }
}

/** Help and version are no error; a complaint about the command line is wrong input, and so is a fault of the disk. */
function failed(error: unknown, terminal: Run["terminal"]): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.plan : EXIT.wrongInput;
  const problem = diskProblem(error);
  if (problem !== null) {
    terminal.complain(problemText(problem));
    return EXIT.wrongInput;
  }
  terminal.complain(`Our fault: ${reasonOf(error)}`);
  return EXIT.noAnswer;
}
