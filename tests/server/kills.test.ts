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

/**
 * What a step leaves: the plan that is kept, by its hash; the sliced fennel as written; the tests recorded; the sliced
 * fennel as learnt.
 */
interface Left {
  readonly plan: string;
  readonly figure: string;
  readonly tests: number;
  readonly learnt: string;
}

const STEPS = 5;
const SLICED = "cut gave,Lunch,fennel,sliced,fennel slice";

/** The steps are: keep the plan that the server made, weigh in a whole cut, learn of it, record a test, blank the cut. */
function leftBy(step: number, left: Left, made: string): Left {
  const { figure, tests } = left;
  const turn = step % STEPS;
  if (turn === 0) return { ...left, plan: made, figure: "" };
  if (turn === 1) return { ...left, figure: String(1600 + (tests % 50)) };
  if (turn === 2) return { ...left, learnt: figure };
  return turn === 3 ? { ...left, tests: tests + 1 } : { ...left, figure: "" };
}

/** Rows of the weigh-in, by their column; no kitchen here writes a comma. */
function weighIn(folder: string): Record<string, string>[] {
  const [heading = "", ...rows] = readFileSync(join(folder, "lunch.weigh-in.csv"), "utf8")
    .trimEnd()
    .split("\n");
  const columns = heading.split(",");
  return rows.map((row) => {
    const cells = row.split(",");
    return Object.fromEntries(columns.map((column, at) => [column, cells[at] ?? ""]));
  });
}

function found(folder: string): Left {
  const text = (name: string) =>
    readdirSync(folder).includes(name) ? readFileSync(join(folder, name), "utf8") : "";
  if (text("lunch.plan.json") === "") {
    expect(text("lunch.weigh-in.csv")).toBe("");
    return { plan: "", figure: "", tests: 0, learnt: "" };
  }
  const plan = planHash(JSON.parse(text("lunch.plan.json")));
  const rows = text("lunch.weigh-in.csv").trimEnd().split("\n");
  expect(rows.at(-1)).toBe(`plan,,${plan},,,,,,,,,`);
  const [, figure = ""] = new RegExp(`^${SLICED},,g,\\d+,(\\d*),`, "m").exec(rows.join("\n")) ?? [];
  const tests = text("yield-tests.csv");
  const beets = tests.match(/^beet,.*$/gm) ?? [];
  // Whole tests: five lines of what is recorded, six of what is learnt.
  expect(beets.length % 5).toBe(0);
  const [, learnt = ""] = /,slice,(\d+),/.exec(tests) ?? [];
  expect(tests.match(/^fennel,.*$/gm) ?? []).toHaveLength(learnt === "" ? 0 : 6);
  return { plan, figure, tests: beets.length / 5, learnt };
}

/** A server over the folder, which is asked for pages and sent forms as a browser would. */
async function served(folder: string) {
  const program = start("serve", folder, "--port", "0");
  const [origin = ""] = /http:\/\/[^/\s]+/.exec(await printed(program, /http:\/\/\S+/)) ?? [];
  const ended = new Promise((resolve) => program.on("close", resolve));
  return {
    get: async (path: string) => (await fetch(origin + path)).text(),
    /** Whether it was answered that all is done; false where the server was killed before it answered. */
    post: async (path: string, fields: [string, string][] = []): Promise<boolean> => {
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
  await post("/scenario/lunch.yaml/plan", [["seconds", "10"]]);
  for (;;) {
    const text = await get("/scenario/lunch.yaml/plan.json");
    if (text.includes('"schema"')) return planHash(JSON.parse(text));
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** The fennel of the weigh-in as its form sends it: cut as planned but for the slices, or blank. */
function fennel(folder: string, slices: string): [string, string][] {
  const rows = weighIn(folder);
  const gave = rows.filter(({ what, name }) => what === "cut gave" && name === "fennel");
  const weighed = ({ part, planned }: Record<string, string>) =>
    part === "fennel slice" ? slices : String(planned);
  const whole = gave.reduce((sum, row) => sum + Number(weighed(row)), 0);
  const plan = rows.at(-1)?.name?.slice(0, 16);
  const written = (row: Record<string, string> | undefined, actual: string): [string, string][] => [
    ["key", `${plan} ${JSON.stringify([row?.what, 0, "fennel", row?.way, row?.part, null, "weight"])}`],
    ["was", row?.actual ?? ""],
    ["wasReason", ""],
    ["actual", slices === "" ? "" : actual],
    ["reason", ""],
  ];
  const inGrams = (kind: string) =>
    rows.find(({ what, name, unit }) => what === kind && name === "fennel" && unit === "g");
  return [
    ...written(inGrams("bought"), String(whole)),
    ...written(inGrams("cut"), String(whole)),
    ...gave.flatMap((row) => written(row, weighed(row))),
    ["initials", "A"],
  ];
}

async function sent(step: number, { post }: Server, left: Left, folder: string): Promise<boolean> {
  const turn = step % STEPS;
  if (turn === 0) return post("/scenario/lunch.yaml/keep");
  if (turn === 2) return post("/scenario/lunch.yaml/learn");
  if (turn === 3) {
    const [units, scaleStep, date] = ["1", "1", "2026-10-14"];
    const weights = { "weight-0": "500", "weight-1": "200", "weight-2": "200", "weight-3": "50", loss: "50" };
    const head = { supplier: `Field ${left.tests}`, date, units, apWeight: "1000", scaleStep };
    return post(`/yields/${TEST}`, Object.entries({ ...head, ...weights }));
  }
  return post("/scenario/lunch.yaml/weigh-in", fennel(folder, leftBy(step, left, "").figure));
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
        let step = left.figure === "" ? 0 : 2;
        const timer = setTimeout(() => void server.kill(), 1 + random() * latest);
        const before = steps;
        while (await sent(step, server, left, scratch.path)) {
          left = leftBy(step, left, made);
          step++;
          steps++;
          // What was recorded makes another plan.
          if (step % STEPS === 0) made = await planned(server).catch(() => made);
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
        // On a busy machine a step takes longer; of three kills about one is to come before the first step.
        latest = steps === before ? latest * 1.5 : Math.max(LATEST_MS, latest * 0.85);
      }
      expect(steps).toBeGreaterThan(KILLS / 3);
      scratch.remove();
    },
    Math.max(120_000, KILLS * 20_000),
  );
});
