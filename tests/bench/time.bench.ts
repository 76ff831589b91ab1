import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { median, printTable, wholeProcess } from "./measure.js";

const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 5);
/** How long after the time asked for an answer may be whole. */
const GRACE = 0.3;
const ASKED = [0.5, 1, 2, 10];
const NAMES = ["smallest", "demo", "no-plan", "impossible"];

const fileOf = (name: string) => fileURLToPath(new URL(`../../examples/${name}.yaml`, import.meta.url));

it("answers in the time asked for, from the start of the program and from the call", async () => {
  const rows = [["example", "asked", "program", "exit", "library", "outcome"]];
  const late: string[] = [];
  for (const name of NAMES)
    for (const asked of ASKED) {
      const runs = Array.from({ length: ROUNDS }, () =>
        wholeProcess("plan", fileOf(name), "--seconds", `${asked}`),
      );
      const program = median(runs.map(({ seconds }) => seconds));
      const calls: number[] = [];
      const outcomes = new Set<string>();
      for (let round = 0; round < ROUNDS; round++) {
        const { scenario } = loadScenarioText(fileOf(name), readFileSync(fileOf(name), "utf8"));
        if (scenario === null) throw new Error(`${name} does not read`);
        const engines = new Engines();
        const began = performance.now();
        const { plan } = await planScenario(scenario, { engines, seconds: asked, risk: {} });
        calls.push((performance.now() - began) / 1000);
        outcomes.add(plan.outcome.kind);
        await engines.close();
      }
      const library = median(calls);
      rows.push([
        ...[
          name,
          `${asked} s`,
          `${program.toFixed(2)} s`,
          [...new Set(runs.map((run) => run.exitCode))].join("/"),
        ],
        ...[`${library.toFixed(2)} s`, [...outcomes].join("/")],
      ]);
      console.log(rows.at(-1)?.join(" | "));
      for (const [what, taken] of Object.entries({ program, library }))
        if (taken > asked + GRACE) late.push(`${name}, ${asked} s asked: ${what} took ${taken.toFixed(2)} s`);
    }
  printTable(`Seconds asked for and taken, medians of ${ROUNDS}.`, rows);
  expect(late).toEqual([]);
});
