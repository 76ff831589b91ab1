#!/usr/bin/env node
import { readFileSync } from "node:fs";
import { Command, CommanderError } from "commander";
import { addCommands, EXIT, type ExitCode, processTerminal } from "./commands/index.js";
import { problemText, reasonOf } from "./reading/index.js";
import { diskProblem } from "./records/index.js";

const EXIT_HELP = `
Exit codes: 0 a plan; 1 no plan exists; 2 the input is wrong; 3 no answer in the time, or our fault.`;

const terminal = processTerminal();
function interrupted(): never {
  terminal.progress(null);
  process.exit(EXIT.interrupted);
}

/** Ends `serve` in good order; every other command, and whoever asks twice, is ended with the process. */
let stop: () => void = interrupted;

function program(end: (code: ExitCode) => void): Command {
  const { version } = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as {
    version: string;
  };
  const main = new Command("trim-to-use")
    .description("Plan whole ingredients into dishes so that every part worth eating ends on a plate.")
    .version(version)
    .exitOverride()
    .addHelpText("after", EXIT_HELP);
  const untilStopped = () =>
    new Promise<void>((resolve) => {
      stop = () => {
        stop = interrupted;
        resolve();
      };
    });
  const begun = () => performance.now() / 1000;
  addCommands(main, { terminal, end, begun, untilStopped });
  return main;
}

/** Help and version are no error; a complaint about the command line is wrong input, and so is a fault of the disk. */
function failed(error: unknown): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.plan : EXIT.wrongInput;
  const problem = diskProblem(error);
  if (problem !== null) {
    terminal.complain(problemText(problem));
    return EXIT.wrongInput;
  }
  terminal.complain(`Our fault: ${reasonOf(error)}`);
  return EXIT.noAnswer;
}

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(process.exitCode ?? EXIT.plan);
  terminal.complain(
    `What is printed cannot be written (${error.code}). Make room there, or print elsewhere.`,
  );
  process.exit(EXIT.wrongInput);
});
process.on("SIGINT", () => stop());
process.on("SIGTERM", () => stop());

try {
  await program((code) => {
    process.exitCode = code;
  }).parseAsync();
} catch (error) {
  process.exitCode = failed(error);
}
