import { existsSync, statSync } from "node:fs";
import { readPlan } from "../contract/index.js";
import { loadScenarioText } from "../kitchen-files/index.js";
import type { RunningServer } from "../server/index.js";
import { printPlan } from "./plan-text.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";

const DEMO = "demo.yaml";

export interface ServeCommandOptions {
  readonly port: number;
  /** Plan the folder's demo first and print it. */
  readonly demo?: boolean;
}

/** `serve DIR`: serves the pages of a folder's scenarios until `stopped` ends it. */
export async function serveCommand(
  folder: string,
  { port, demo }: ServeCommandOptions,
  terminal: Terminal,
  stopped: Promise<void>,
): Promise<ExitCode> {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    terminal.complain(`${folder} is no folder. Name the folder that holds your scenario files.`);
    return EXIT.wrongInput;
  }
  // Loaded here, as no other command waits for it.
  const { startServer } = await import("../server/index.js");
  const server = await startServer({ folder, port }).catch((error: unknown) => {
    if (!isPortTaken(error)) throw error;
    return null;
  });
  if (server === null) {
    terminal.complain(`Port ${port} is taken. Choose another with --port.`);
    return EXIT.wrongInput;
  }
  try {
    if (demo === true) await printDemo(server, terminal, stopped);
    else terminal.print(`Plans of ${folder}: ${server.url}`);
    terminal.print("Stop with Ctrl-C.");
    await stopped;
    return EXIT.plan;
  } finally {
    await server.close();
  }
}

async function printDemo(server: RunningServer, terminal: Terminal, stopped: Promise<void>): Promise<void> {
  terminal.progress(`Planning ${DEMO}`);
  const made = await Promise.race([server.plan(DEMO), stopped.then(() => "stopped" as const)]);
  terminal.progress(null);
  if (made === "stopped") return;
  const scenario = made && loadScenarioText(DEMO, made.file.text, undefined, made.file.ownTests).scenario;
  const read = made && readPlan({ file: DEMO, text: made.planned.json }, "");
  if (scenario !== null && read !== null && "plan" in read) printPlan(read.plan, scenario, terminal);
  else terminal.complain(`${DEMO} could not be planned; see ${server.url}`);
  terminal.print(`Its pages: ${server.addressOf(DEMO)}`);
}

function isPortTaken(error: unknown): boolean {
  return (
    error instanceof Error && "code" in error && (error.code === "EADDRINUSE" || error.code === "EACCES")
  );
}
