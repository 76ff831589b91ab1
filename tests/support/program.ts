import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { processTerminal, runProgram } from "../../src/commands/index.js";

/** The built program. */
export const PROGRAM = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const ROOT = fileURLToPath(new URL("../../", import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Starts the built program in the project's folder, with nobody watching. */
export function start(...args: string[]): ChildProcessWithoutNullStreams {
  return startIn(ROOT, ...args);
}

function startIn(root: string, ...args: string[]): ChildProcessWithoutNullStreams {
  const program = join(root, "dist", "cli.js");
  return spawn(process.execPath, [program, ...args], { cwd: root, env: { ...process.env, NO_COLOR: "" } });
}

export function finished(child: ChildProcessWithoutNullStreams): Promise<Ran> {
  let stdout = "";
  let stderr = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    stdout += text;
  });
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    stderr += text;
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject).on("close", (code) => resolve({ code, stdout, stderr }));
  });
}

/** Runs a command line to its end in this process, with nobody watching; nothing stops what serves. */
export async function run(...args: string[]): Promise<Ran> {
  const [stdout, stderr] = [new Written(), new Written()];
  const started = performance.now();
  const code = await runProgram(args, {
    terminal: processTerminal({ stdout, stderr, env: {} }),
    stdout,
    stderr,
    begun: () => (performance.now() - started) / 1000,
    untilStopped: () => new Promise(() => {}),
  });
  return { code, stdout: stdout.text, stderr: stderr.text };
}

class Written {
  text = "";

  write(more: string): void {
    this.text += more;
  }
}

/** Runs the built program to its end. */
export function runBuilt(...args: string[]): Promise<Ran> {
  return finished(start(...args));
}

/** Runs a copy of the built program that lies in a folder of its own. */
export function runIn(root: string, ...args: string[]): Promise<Ran> {
  return finished(startIn(root, ...args));
}

/** Waits until the program has printed something that matches, and gives all it has printed. */
export function printed(child: ChildProcessWithoutNullStreams, wanted: RegExp): Promise<string> {
  let text = "";
  return new Promise((resolve, reject) => {
    child.stdout.setEncoding("utf8").on("data", (more: string) => {
      text += more;
      if (wanted.test(text)) resolve(text);
    });
    child.on("close", (code) => reject(new Error(`ended with code ${code} after: ${text}`)));
  });
}
