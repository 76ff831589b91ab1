import { spawn } from "node:child_process";
import { once } from "node:events";
import { setImmediate as immediate } from "node:timers/promises";
import { afterAll, describe, expect, it } from "vitest";
import type { Progress, Question } from "../../src/allocation/engine.js";
import { HighsAndSearch } from "../../src/allocation/engines/highs-and-search.js";
import { searchSolver } from "../../src/allocation/engines/highs-model.js";
import { Incumbent, IncumbentChannel } from "../../src/allocation/engines/incumbent.js";
import { Highs } from "../../src/allocation/engines/threaded.js";
import { integerCount, objectiveAt } from "../../src/allocation/search/problem.js";
import { asked } from "../support/asked-menu.js";
import { writeQuestion } from "../support/write-model.js";

const LARGE = { items: 6, dishes: 20, days: 3 };
/** Of which two searches look for points before the proof begins. */
const VERY_LARGE = { items: 15, dishes: 40, days: 5 };

const highs = new Highs();
const engine = new HighsAndSearch(highs);
afterAll(() => Promise.all([engine.close(), highs.close()]));

it("incumbents hear each other's points, and know the best of them", () => {
  const [one, two, other] = ["same", "same", "another"].map((channel) => new IncumbentChannel(channel, true));
  const told = (objective: number) => ({ point: Float64Array.of(objective), objective });
  for (const objective of [3, 5, 4]) one?.tell(told(objective));
  expect([two?.best(), one?.best(), other?.best()]).toEqual([told(5), null, null]);
  two?.tell(told(6));
  expect([one?.best(), two?.best()]).toEqual([told(6), told(5)]);
  for (const each of [one, two, other]) each?.close();
});

describe("HiGHS alone", () => {
  it("goes on for a first point as long as it may, and ends when its time is up where it has one", async () => {
    const { question } = asked(LARGE);
    const limits = { seconds: 0.05, gap: 1e-6 };
    expect(await highs.solve(question, limits)).toMatchObject({ kind: "failed" });
    const first = await highs.solve(question, { ...limits, secondsToFirst: 120 });
    if (first.kind !== "feasible") throw new Error(JSON.stringify(first));
    expect(first.stoppedBy).toEqual({ code: "time", words: "timeLimit" });
    expect(first.seconds).toBeLessThan(60);
    const kept = await highs.solve(question, { ...limits, secondsToFirst: 120, start: first.point });
    expect(kept.seconds).toBeLessThan(30);
    const wrong = question.model.variables.map(({ lower }) => lower);
    const again = await highs.solve(question, { ...limits, secondsToFirst: 120, start: wrong });
    expect(again.kind).toBe("feasible");
  });
});

describe("HiGHS and the search together", () => {
  it("prove what HiGHS proves, and tell of both point and bound on the way", async () => {
    const { question } = asked({ seed: 1 });
    const heard: { best: number | null; bound: number | null }[] = [];
    const limits = { seconds: 40, gap: 1e-6 };
    const alone = await highs.solve(question, limits);
    const both = await engine.solve(question, { ...limits, onProgress: (progress) => heard.push(progress) });
    expect(both).toMatchObject({ kind: "optimal", engine: "highs and search", stoppedBy: null });
    expect("objective" in both && "objective" in alone && both.objective - alone.objective).toBeCloseTo(0, 5);
    expect(heard.some(({ best, bound }) => best !== null && bound !== null)).toBe(true);
  });

  it("go on for a first point as long as they may, and no longer", async () => {
    const { question } = asked(LARGE);
    const limits = { seconds: 0.001, gap: 1e-6 };
    expect(await engine.solve(question, limits)).toMatchObject({ kind: "failed" });
    const outcome = await engine.solve(question, { ...limits, secondsToFirst: 30 });
    expect(outcome).toMatchObject({ kind: "feasible", engine: "highs and search" });
    expect(outcome.seconds).toBeLessThan(20);
  });

  it("dive where the start breaks a row, and keep a start that stands", async () => {
    const { question } = asked(LARGE);
    const wrong = question.model.variables.map(({ lower }) => lower);
    const dived = await engine.solve(question, {
      seconds: 0.05,
      secondsToFirst: 30,
      gap: 1e-6,
      start: wrong,
    });
    if (dived.kind !== "feasible") throw new Error(JSON.stringify(dived));
    const kept = await engine.solve(question, { seconds: 0.3, gap: 1e-6, start: dived.point });
    expect("objective" in kept && kept.objective).toBeLessThanOrEqual(dived.objective);
  });

  it.each(["least", "most"] as const)(
    "prove a bound beyond the relaxation's, for %s, also where a second search goes first",
    async (sense) => {
      const { question, problem } = asked(VERY_LARGE);
      expect(integerCount(question.model)).toBeGreaterThanOrEqual(150);
      const relaxation = searchSolver.relax(problem.matrix);
      const relaxed = objectiveAt(problem.matrix, relaxation.solve() ?? new Float64Array());
      relaxation.dispose();
      const sign = sense === "least" ? 1 : -1;
      const heard: Progress[] = [];
      const outcome = await engine.solve(sense === "least" ? question : turned(question), {
        seconds: 7,
        gap: 1e-6,
        onProgress: (progress) => heard.push(progress),
      });
      if (outcome.kind !== "feasible") throw new Error(JSON.stringify(outcome));
      expect(heard[0]?.best).toBeNull();
      expect(sign * (heard[0]?.bound ?? 0)).toBeCloseTo(relaxed, 6);
      expect(sign * outcome.bound).toBeGreaterThan(relaxed);
      expect(sign * outcome.objective).toBeGreaterThan(sign * outcome.bound);
      const bests = heard.flatMap(({ best }) => (best === null ? [] : [sign * best]));
      expect(bests).toEqual([...bests].sort((a, b) => b - a));
      expect(sign * outcome.objective).toBeLessThan(bests[0] ?? 0);
    },
  );

  it("keep a point that stands where HiGHS says that there is none", async () => {
    const denying = new Highs(new URL("../support/fixtures/denying-thread.mjs", import.meta.url));
    const both = new HighsAndSearch(denying);
    const { question } = asked(LARGE);
    const dived = await engine.solve(question, { seconds: 0.05, secondsToFirst: 30, gap: 1e-6 });
    if (dived.kind !== "feasible") throw new Error(JSON.stringify(dived));
    const kept = await both.solve(question, { seconds: 3, gap: 1e-6, start: dived.point });
    expect(kept).toMatchObject({
      kind: "feasible",
      stoppedBy: { code: "solver", words: "HiGHS, which finds no plan where there is one" },
    });
    expect("objective" in kept && kept.objective).toBeLessThanOrEqual(dived.objective);
    await Promise.all([both.close(), denying.close()]);
  });

  it("wait no longer than for the dive where there is no plan in whole numbers", async () => {
    const { model, objective } = asked(VERY_LARGE).question;
    const odd = { name: "odd", tag: { family: "written" }, lower: 0, upper: 9, integer: true };
    const terms = [{ variable: model.variables.length, coefficient: 2 }];
    const row = { name: "twice odd", tag: { family: "written" }, lower: 3, upper: 3, terms };
    const none = { ...model, variables: [...model.variables, odd], rows: [...model.rows, row] };
    const outcome = await engine.solve({ model: none, objective }, { seconds: 40, gap: 1e-6 });
    expect(outcome.kind).toBe("infeasible");
    expect(outcome.seconds).toBeLessThan(20);
  });

  it("are not asked what HiGHS must not be asked", async () => {
    const huge = writeQuestion({
      name: "huge",
      least: { y: 1 },
      rows: [["some", { y: 1, x: 1e15 }, ">=", 1]],
    });
    expect(await engine.solve(huge, { seconds: 10, gap: 1e-6 })).toMatchObject({
      kind: "failed",
      reason: "it must not be asked about the coefficient 1000000000000000",
    });
  });

  it.each([
    ["throws", "moody-thread.mjs"],
    ["leaves", "leaving-thread.mjs"],
  ])("prove alone where the search's thread %s", async (_, file) => {
    const broken = new HighsAndSearch(highs, new URL(`../support/fixtures/${file}`, import.meta.url));
    for (const stated of [{ seed: 1 }, VERY_LARGE]) {
      const outcome = await broken.solve(asked(stated).question, { seconds: 40, gap: 0.02 });
      expect(outcome).toMatchObject({ kind: "optimal", engine: "highs and search" });
    }
    await broken.close();
  });

  it("start no thread once they are closed", async () => {
    const own = new Highs();
    const closed = new HighsAndSearch(own);
    await Promise.all([closed.close(), own.close()]);
    const outcome = await closed.solve(asked({}).question, { seconds: 40, gap: 1e-6 });
    expect(outcome).toMatchObject({
      kind: "failed",
      reason: "a breakdown: it was closed, without any point",
    });
    expect(outcome.seconds).toBeLessThan(5);
  });

  it.each([
    ["large", "while HiGHS proves", LARGE, 2],
    ["very large", "while two searches are on", VERY_LARGE, 1],
  ])(
    "hand out what they hold of a %s plan when they are closed %s, and leave no thread behind",
    async (_, __, of, bounds) => {
      const folder = new URL("../../dist/allocation/engines/", import.meta.url);
      const { question } = asked(of);
      const program = `
      import { Highs } from "${new URL("threaded.js", folder)}";
      import { HighsAndSearch } from "${new URL("highs-and-search.js", folder)}";
      const endless = (_, value) => (/^-?Infinity$/.test(value) ? Number(value) : value);
      let text = "";
      for await (const chunk of process.stdin) text += chunk;
      const highs = new Highs();
      const both = new HighsAndSearch(highs);
      let isClosed = false;
      const bounds = new Set();
      const close = ({ best, bound }) => {
        if (bound !== null) bounds.add(bound);
        if (best === null || bounds.size < ${bounds} || isClosed) return;
        isClosed = true;
        void both.close();
        void highs.close();
      };
      const outcome = await both.solve(JSON.parse(text, endless), { seconds: 600, gap: 1e-6, onProgress: close });
      console.log(outcome.kind, outcome.stoppedBy.words);`;
      const child = spawn(process.execPath, ["--input-type=module", "-e", program], { timeout: 50_000 });
      const written = (_: string, value: unknown) =>
        Math.abs(Number(value)) === Infinity ? String(value) : value;
      child.stdin.end(JSON.stringify(question, written));
      let said = "";
      child.stdout.on("data", (data) => {
        said += data;
      });
      const [code] = await once(child, "close");
      expect([code, said.trim()]).toEqual([0, "feasible a breakdown: it was closed"]);
    },
  );
});

describe("the incumbent of a question", () => {
  const question = writeQuestion({
    name: "some",
    most: { x: 1 },
    rows: [["enough", { x: 1 }, "<=", 10]],
    whole: true,
  });
  const proposal = (x: number, objective = x) => ({
    kind: "proposal" as const,
    id: 1,
    proposal: { point: Float64Array.of(x), objective },
  });
  const isSettled = (promise: Promise<void>): Promise<boolean> =>
    Promise.race([promise.then(() => true), immediate(false)]);

  it("takes a point only where it stands and is better, and a bound only where it is nearer", async () => {
    const heard: Omit<Progress, "seconds">[] = [];
    const onProgress = ({ best, bound }: Progress) => heard.push({ best, bound });
    const incumbent = new Incumbent(question, { seconds: 1, gap: 0.1, onProgress });
    expect(incumbent.bound).toBe(Number.POSITIVE_INFINITY);
    for (const news of [proposal(11), proposal(4.5), proposal(4, 5)]) incumbent.hearSearch(news);
    expect([incumbent.found, await isSettled(incumbent.first)]).toEqual([null, false]);
    for (const news of [proposal(5), proposal(4)]) incumbent.hearSearch(news);
    expect([incumbent.found?.objective, await isSettled(incumbent.first)]).toEqual([5, true]);
    for (const bound of [12, 10, 11]) incumbent.hear({ best: 3, bound });
    expect(incumbent.bound).toBe(10);
    expect(heard.slice(0, 2)).toEqual([
      { best: 5, bound: null },
      { best: 5, bound: 12 },
    ]);
  });

  it("hears of a dive that came to no point", async () => {
    const incumbent = new Incumbent(question, { seconds: 1, gap: 0 });
    expect(await isSettled(incumbent.pointless)).toBe(false);
    incumbent.hearSearch({ kind: "waits", id: 1 });
    expect(await isSettled(incumbent.pointless)).toBe(true);
  });
});

/** The same in other words: the most of what is the less the better. */
function turned({ model, objective }: Question): Question {
  const terms = objective.terms.map((term) => ({ ...term, coefficient: -term.coefficient }));
  return { model, objective: { sense: "most", terms, constant: -objective.constant } };
}
