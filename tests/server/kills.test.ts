import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { planHash } from "../../src/contract/index.js";
import { printed, start } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";
import { seededNumbers } from "../support/seeded-numbers.js";

const LUNCH = new URL("../../examples/after-service/lunch.yaml", import.meta.url);
const KILLS = Number(process.env.KILLS ?? 3);
const SEED = Number(process.env.KILLS_SEED ?? 20261130);
const LATEST_MS = 400;
const TEST = "beet/test?form=bunch+with+tops&breakdown=roots+whole";

/** What a step leaves: the plan that is kept, by its hash; the figure written; the tests recorded. */
interface Left {
  readonly plan: string;
  readonly figure: string;
  readonly tests: number;
}

/** Step 0 keeps the plan that the server made, 1 writes a figure, 2 records a test, 3 blanks the figure, and so on. */
function leftBy(step: number, { plan, figure, tests }: Left, made: string): Left {
  const turn = step % 4;
  if (turn === 0) return { plan: made, figure: "", tests };
  if (turn === 1) return { plan, figure: String(tests + 1), tests };
  return turn === 2 ? { plan, figure, tests: tests + 1 } : { plan, figure: "", tests };
}

function found(folder: string): Left {
  const text = (name: string) =>
    readdirSync(folder).includes(name) ? readFileSync(join(folder, name), "utf8") : "";
  if (text("lunch.plan.json") === "") {
    expect(text("lunch.weigh-in.csv")).toBe("");
    return { plan: "", figure: "", tests: 0 };
  }
  const plan = planHash(JSON.parse(text("lunch.plan.json")));
  const [heading = "", first = "", ...rows] = text("lunch.weigh-in.csv").trimEnd().split("\n");
  expect(rows.at(-1)).toBe(`plan,,${plan},,,,,,,,,`);
  const lines = text("yield-tests.csv").trimEnd().split("\n").slice(1);
  // Whole tests: each has five lines.
  expect(lines.length % 5).toBe(0);
  const figure = first.split(",")[heading.split(",").indexOf("actual")] ?? "";
  return { plan, figure, tests: lines.length / 5 };
}

/** A server over the folder, which is asked for pages and sent forms as a browser would. */
async function served(folder: string) {
  const program = start("serve", folder, "--port", "0");
  const [origin = ""] = /http:\/\/[^/\s]+/.exec(await printed(program, /http:\/\/\S+/)) ?? [];
  const ended = new Promise((resolve) => program.on("close", resolve));
  return {
    get: async (path: string) => (await fetch(origin + path)).text(),
    /** Whether it was answered that all is done; false where the server was killed before it answered. */
    post: async (path: string, fields: Record<string, string> = {}): Promise<boolean> => {
      const asked = { method: "POST", headers: { origin }, body: new URLSearchParams(fields) };
      const answer = await fetch(origin + path, { ...asked, redirect: "manual" }).catch(() => null);
      if (answer !== null && answer.status !== 303) throw new Error(`${path}: ${await answer.text()}`);
      return answer !== null;
    },
    kill: async () => {
      program.kill("SIGKILL");
      await ended;
    },
  };
}

type Server = Awaited<ReturnType<typeof served>>;

/** Plans the scenario, and gives the plan's hash. */
async function planned({ get, post }: Server): Promise<string> {
  await post("/scenario/lunch.yaml/plan", { seconds: "10" });
  for (;;) {
    const text = await get("/scenario/lunch.yaml/plan.json");
    if (text.includes('"schema"')) return planHash(JSON.parse(text));
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

async function sent(step: number, { get, post }: Server, { figure, tests }: Left): Promise<boolean> {
  if (step % 4 === 0) return post("/scenario/lunch.yaml/keep");
  if (step % 4 === 2) {
    const [units, scaleStep, date] = ["1", "1", "2026-10-14"];
    const weights = { "weight-0": "500", "weight-1": "200", "weight-2": "200", "weight-3": "50", loss: "50" };
    const head = { supplier: `Field ${tests}`, date, units, apWeight: "1000", scaleStep };
    return post(`/yields/${TEST}`, { ...head, ...weights });
  }
  const page = await get("/scenario/lunch.yaml/weigh-in").catch(() => "");
  const [, key] = /name="key" value="([^"]+)"/.exec(page) ?? [];
  if (key === undefined) return false;
  const row = key.replaceAll("&quot;", '"');
  const actual = step % 4 === 1 ? String(tests + 1) : "";
  const reasons = { wasReason: "", reason: "" };
  return post("/scenario/lunch.yaml/weigh-in", { key: row, was: figure, actual, ...reasons, initials: "A" });
}

describe("a server that is killed at any moment", () => {
  it(
    `keeps all that it answered is saved, and nothing by halves, ${KILLS} times`,
    async () => {
      const scratch = scratchFolder({ "lunch.yaml": readFileSync(LUNCH, "utf8") });
      const random = seededNumbers(SEED);
      let steps = 0;
      let latest = LATEST_MS;
      for (let kill = 0; kill < KILLS; kill++) {
        const server = await served(scratch.path);
        let made = await planned(server);
        // Whatever was being saved when it was killed is finished, or gone, by now.
        let left = found(scratch.path);
        let step = left.figure === "" ? 0 : 3;
        const timer = setTimeout(() => void server.kill(), 1 + random() * latest);
        const before = steps;
        while (await sent(step, server, left)) {
          left = leftBy(step, left, made);
          step++;
          steps++;
          // What was recorded makes another plan.
          if (step % 4 === 0) made = await planned(server).catch(() => made);
        }
        clearTimeout(timer);
        await server.kill();
        const again = await served(scratch.path);
        await again.get("/scenario/lunch.yaml/");
        await again.kill();
        const now = found(scratch.path);
        const isNextDone = JSON.stringify(now) === JSON.stringify(leftBy(step, left, made));
        expect(now, `seed ${SEED}, kill ${kill}, step ${step}`).toEqual(
          isNextDone ? leftBy(step, left, made) : left,
        );
        if (steps === before) latest *= 1.5;
      }
      expect(steps).toBeGreaterThan(KILLS / 3);
      scratch.remove();
    },
    Math.max(120_000, KILLS * 20_000),
  );
});
