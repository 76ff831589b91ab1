import { spawn } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { planHash } from "../../src/contract/index.js";
import { finishSaving } from "../../src/records/index.js";
import { scratchFolder } from "../support/scenarios.js";
import { seededNumbers } from "../support/seeded-numbers.js";

const AFTER = new URL("../../examples/after-service/", import.meta.url);
const KITCHEN = fileURLToPath(new URL("../support/fixtures/busy-kitchen.mjs", import.meta.url));
const KILLS = Number(process.env.KILLS ?? 8);
const SEED = Number(process.env.KILLS_SEED ?? 20261130);
const LATEST_MS = 400;

/** What a step leaves: the plan that is kept, by its seconds; the figure written; the tests recorded. */
interface Left {
  readonly plan: number;
  readonly figure: string;
  readonly tests: number;
}

/** Step 0 keeps a plan, 1 writes a figure, 2 records a test, 3 blanks the figure, 4 keeps another plan, and so on. */
function leftBy(step: number): Left {
  const turn = step % 4;
  return {
    plan: step - turn,
    figure: turn === 1 || turn === 2 ? String(step - turn + 1) : "",
    tests: Math.floor((step + 2) / 4),
  };
}

function found(folder: string): Left {
  const text = (name: string) => readFileSync(join(folder, name), "utf8");
  const plan = JSON.parse(text("lunch.plan.json"));
  const [heading = "", first = "", ...rows] = text("lunch.weigh-in.csv").trimEnd().split("\n");
  expect(rows.at(-1)).toBe(`plan,,${planHash(plan)},,,,,,,,,`);
  const tests = readdirSync(folder).includes("yield-tests.csv") ? text("yield-tests.csv") : "";
  const lines = tests
    .trimEnd()
    .split("\n")
    .slice(1)
    .filter((line) => line !== "");
  // Whole tests: each has five lines.
  expect(lines.length % 5).toBe(0);
  const figure = first.split(",")[heading.split(",").indexOf("actual")] ?? "";
  return { plan: plan.outcome.seconds, figure, tests: lines.length / 5 };
}

/** Lets the kitchen work from a step on, kills it after so long, and gives the last step that it said was done. */
function killed(folder: string, from: number, afterMs: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const plan = fileURLToPath(new URL("lunch.plan.json", AFTER));
    const child = spawn(process.execPath, [KITCHEN, join(folder, "lunch.yaml"), plan, String(from)]);
    let said = "";
    let complaint = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      if (said === "") setTimeout(() => child.kill("SIGKILL"), afterMs);
      said += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      complaint += text;
    });
    child.on("close", () => {
      const done = said.split("\n").slice(1, -1).map(Number);
      if (complaint === "") resolve(done.at(-1) ?? from - 1);
      else reject(new Error(complaint));
    });
  });
}

describe("a kitchen whose program is killed at any moment", () => {
  it(
    `keeps all that it was told is saved, and nothing by halves, ${KILLS} times`,
    async () => {
      const scratch = scratchFolder();
      writeFileSync(join(scratch.path, "lunch.yaml"), readFileSync(new URL("lunch.yaml", AFTER), "utf8"));
      const random = seededNumbers(SEED);
      let next = 0;
      let latest = LATEST_MS;
      for (let kill = 0; kill < KILLS; kill++) {
        const done = await killed(scratch.path, next, 1 + random() * latest);
        await finishSaving(scratch.path);
        // On a busy machine a step takes longer; of three kills about one is to come before the first step.
        latest = done < next ? latest * 1.5 : Math.max(LATEST_MS, latest * 0.85);
        next = done + 1;
        if (next === 0) continue;
        const left = found(scratch.path);
        const isNextDone = JSON.stringify(left) === JSON.stringify(leftBy(next));
        expect(left, `seed ${SEED}, kill ${kill}, step ${done}`).toEqual(leftBy(isNextDone ? next : done));
        if (isNextDone) next++;
      }
      expect(next).toBeGreaterThan(KILLS);
      scratch.remove();
    },
    Math.max(60_000, KILLS * 8_000),
  );
});
