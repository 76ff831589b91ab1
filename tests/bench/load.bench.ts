import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { scratchFolder } from "../support/scenarios.js";
import { soupEveryDay } from "../support/soup-every-day.js";
import { printTable } from "./measure.js";

/** Another build of the program to measure, beside this one, with the same clients. */
const OTHER = process.env.BENCH_OTHER;
const OWN = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const SECONDS = Number(process.env.BENCH_SECONDS ?? 60);
const CLIENTS = 50;
const PAUSE_MS = 250;
/** Tells on its end how long its thread was silent at most since it was first asked, and how much memory it took. */
const WATCH = `data:text/javascript,
import { subscribe } from "node:diagnostics_channel";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { isMainThread } from "node:worker_threads";
const delay = monitorEventLoopDelay({ resolution: 5 });
if (isMainThread) {
  subscribe("http.server.request.start", () => delay.enable());
  process.on("exit", () => process.stderr.write("silent " + delay.max / 1e6 + " memory " + process.resourceUsage().maxRSS / 1024));
}`;

const example = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");

interface Load {
  readonly p50: number;
  readonly p99: number;
  readonly longest: number;
  readonly requests: number;
  readonly errors: number;
  readonly silent: number;
  readonly megabytes: number;
}

it(`serves ${CLIENTS} clients beside two solves`, async () => {
  const builds = { ...(OTHER === undefined ? {} : { other: OTHER }), own: OWN };
  const rows = [["build", "requests", "p50", "p99", "longest", "errors", "silent at most", "memory"]];
  const loads: Partial<Record<string, Load>> = {};
  for (const [name, cli] of Object.entries(builds)) {
    const load = await loadOf(cli);
    loads[name] = load;
    const ms = (value: number): string => `${value.toFixed(0)} ms`;
    rows.push([
      ...[name, `${load.requests}`, ms(load.p50), ms(load.p99), ms(load.longest), `${load.errors}`],
      ...[ms(load.silent), `${load.megabytes.toFixed(0)} MB`],
    ]);
  }
  printTable(`${CLIENTS} clients for ${SECONDS} s beside two solves`, rows);
  expect(loads.own?.errors).toBe(0);
});

async function loadOf(cli: string): Promise<Load> {
  const scratch = scratchFolder({
    "demo.yaml": example("demo"),
    "smallest.yaml": example("smallest"),
    "long.yaml": soupEveryDay(120),
    "longer.yaml": soupEveryDay(365),
  });
  const args = ["--import", WATCH, cli, "serve", scratch.path, "--port", "0"];
  const child = spawn(process.execPath, args, { env: { ...process.env, NO_COLOR: "" } });
  // Heard from the start: a server that dies under the load has said its last before it is asked to end.
  const told = new Promise<string>((resolve) => {
    let text = "";
    child.stderr.setEncoding("utf8").on("data", (more: string) => {
      text += more;
    });
    child.on("close", () => resolve(text));
  });
  try {
    const origin = await originOf(child);
    // A server that is silent for longer than it keeps a connection resets the next request on it.
    const post = async (path: string, body = {}): Promise<unknown> => {
      const asked = { method: "POST", headers: { origin }, body: new URLSearchParams(body) };
      const ask = () => fetch(origin + path, { ...asked, redirect: "manual" });
      return ask().catch(ask);
    };
    await post("/scenario/smallest.yaml/plan");
    await untilPlanned(`${origin}/scenario/smallest.yaml/`);
    await post("/scenario/long.yaml/plan", { seconds: "60" });
    await post("/scenario/longer.yaml/plan", { seconds: "300" });
    const until = performance.now() + SECONDS * 1000;
    const times: number[] = [];
    let errors = 0;
    const paths = [
      "/",
      "/scenario/demo.yaml/",
      "/scenario/smallest.yaml/",
      "/scenario/longer.yaml/",
      "/yields/",
      "/scenario/smallest.yaml/pages/glance.html",
      "/scenario/smallest.yaml/plan.json",
    ];
    const client = async (first: number): Promise<void> => {
      for (let turn = first; performance.now() < until; turn++) {
        const began = performance.now();
        const answer = await fetch(origin + paths[turn % paths.length]).catch(() => null);
        await answer?.arrayBuffer();
        times.push(performance.now() - began);
        if (answer === null || answer.status >= 500) errors++;
        await new Promise((resolve) => setTimeout(resolve, PAUSE_MS * (0.5 + ((turn * 37) % 100) / 100)));
      }
    };
    await Promise.all(Array.from({ length: CLIENTS }, (_, index) => client(index)));
    child.kill("SIGTERM");
    const [, silent, megabytes] = /silent ([\d.]+) memory ([\d.]+)/.exec(await told) ?? [];
    const sorted = times.sort((a, b) => a - b);
    const at = (share: number): number =>
      sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
    return {
      p50: at(0.5),
      p99: at(0.99),
      longest: at(1),
      requests: times.length,
      errors,
      silent: Number(silent),
      megabytes: Number(megabytes),
    };
  } finally {
    child.kill("SIGKILL");
    scratch.remove();
  }
}

function originOf(child: ChildProcessWithoutNullStreams): Promise<string> {
  let text = "";
  return new Promise((resolve, reject) => {
    child.stdout.setEncoding("utf8").on("data", (more: string) => {
      text += more;
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(text);
      if (found !== null) resolve(found[0]);
    });
    child.on("close", (code) => reject(new Error(`ended with code ${code} after: ${text}`)));
  });
}

async function untilPlanned(address: string): Promise<void> {
  for (;;) {
    const text = await (await fetch(address)).text();
    if (!text.includes("data-progress")) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
