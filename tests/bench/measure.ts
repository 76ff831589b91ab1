import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const CLI = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const REPORT = `data:text/javascript,process.on("exit",()=>process.stderr.write("\\npeak "+process.resourceUsage().maxRSS))`;

/** Seconds that each contender takes, run in turn `rounds` times after one turn to warm up; the medians. */
export async function inTurn(
  contenders: Readonly<Record<string, () => Promise<void>>>,
  rounds: number,
): Promise<Record<string, number>> {
  const times: Record<string, number[]> = {};
  for (let round = 0; round <= rounds; round++) {
    for (const [name, run] of Object.entries(contenders)) {
      const began = performance.now();
      await run();
      const seconds = (performance.now() - began) / 1000;
      if (round > 0) times[name] = [...(times[name] ?? []), seconds];
    }
  }
  return Object.fromEntries(Object.entries(times).map(([name, all]) => [name, median(all)]));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** A table with a head row, for people to read. */
export function printTable(title: string, rows: readonly (readonly string[])[]): void {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const lines = rows.map((row) => row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("  "));
  console.log(["", title, ...lines].join("\n"));
}

export interface WholeProcess {
  readonly seconds: number;
  /** Peak resident memory. */
  readonly megabytes: number;
  readonly exitCode: number | null;
}

/** Runs the program as a user does and measures the whole process. */
export function wholeProcess(...args: string[]): WholeProcess {
  const began = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ["--import", REPORT, CLI, ...args], {
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  const seconds = (performance.now() - began) / 1000;
  const peak = Number(/peak (\d+)/.exec(stderr)?.[1] ?? Number.NaN);
  return { seconds, megabytes: peak / 1024, exitCode: status };
}
