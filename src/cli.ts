#!/usr/bin/env node
import { EXIT, processTerminal, runProgram } from "./commands/index.js";

const { stdout, stderr } = process;
const terminal = processTerminal();
function interrupted(): never {
  terminal.progress(null);
  process.exit(EXIT.interrupted);
}

/** Ends `serve` in good order; every other command, and whoever asks twice, is ended with the process. */
let stop: () => void = interrupted;

stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(process.exitCode ?? EXIT.plan);
  terminal.complain(
    `What is printed cannot be written (${error.code}). Make room there, or print elsewhere.`,
  );
  process.exit(EXIT.wrongInput);
});
process.on("SIGINT", () => stop());
process.on("SIGTERM", () => stop());

process.exitCode = await runProgram(process.argv.slice(2), {
  terminal,
  stdout,
  stderr,
  begun: () => performance.now() / 1000,
  untilStopped: () =>
    new Promise<void>((resolve) => {
      stop = () => {
        stop = interrupted;
        resolve();
      };
    }),
});
