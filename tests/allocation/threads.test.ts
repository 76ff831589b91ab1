import { spawn } from "node:child_process";
import { once } from "node:events";
import { afterAll, describe, expect, it } from "vitest";
import { Highs, JavascriptLpSolver } from "../../src/allocation/engines/threaded.js";
import { writeQuestion } from "../support/write-model.js";
import { publishedProblems } from "./published-problems.js";

const moodyThread = new URL("../support/fixtures/moody-thread.mjs", import.meta.url);
const slowThread = new URL("../support/fixtures/slow-thread.mjs", import.meta.url);
const question = writeQuestion({ name: "any", least: { x: 1 }, rows: [["some", { x: 1 }, ">=", 1]] });
const ANSWERS = { gap: 0.01, seconds: 10 };
const SPINS = { gap: 0.02, seconds: 0.5 };
const PROPOSES = { gap: 0.03, seconds: 0.5 };
const THROWS = { gap: 0.04, seconds: 10 };
const LEAVES = { gap: 0.05, seconds: 10 };

describe("a thread that is still loading at the deadline", () => {
  const engine = new Highs(slowThread);
  afterAll(() => engine.close());

  it("is there for the next question, which need not wait for another to load", async () => {
    expect(await engine.solve(question, { gap: 0, seconds: 0.05 })).toMatchObject({ kind: "failed" });
    expect(await engine.solve(question, { gap: 0, seconds: 10 })).toMatchObject({ objective: 2 });
  });
});

describe.each([
  ["javascript-lp-solver", () => new JavascriptLpSolver(moodyThread)],
  ["highs", () => new Highs(moodyThread)],
] as const)("the thread of %s", (name, open) => {
  const engine = open();
  afterAll(() => engine.close());

  it("is ended at its deadline when it loops for ever, while this thread answers its timers", async () => {
    let ticks = 0;
    const clock = setInterval(() => {
      ticks += 1;
    }, 10);
    const began = performance.now();
    const outcome = await engine.solve(question, SPINS);
    clearInterval(clock);
    expect(outcome).toMatchObject({
      kind: "failed",
      engine: name,
      reason: "the deadline of 0.5 s, without any point",
    });
    const seconds = (performance.now() - began) / 1000;
    expect(seconds).toBeGreaterThanOrEqual(0.49);
    expect(seconds).toBeLessThan(3);
    expect(ticks).toBeGreaterThan(10);
  });

  it("is followed by a new one", async () => {
    await engine.solve(question, SPINS);
    expect(await engine.solve(question, ANSWERS)).toMatchObject({ kind: "optimal", objective: 7 });
  });

  it("answers beside another that loops", async () => {
    const [spun, answered] = await Promise.all([
      engine.solve(question, SPINS),
      engine.solve(question, ANSWERS),
    ]);
    expect([spun.kind, answered.kind]).toEqual(["failed", "optimal"]);
  });

  it("leaves the best point it had proposed, with the bound it had proved", async () => {
    const heard: unknown[] = [];
    const onProgress = ({ best, bound }: { best: number | null; bound: number | null }) =>
      heard.push([best, bound]);
    expect(await engine.solve(question, { ...PROPOSES, onProgress })).toMatchObject({
      kind: "feasible",
      objective: 7,
      point: [0],
      bound: 5,
      gap: 2 / 7,
      stoppedBy: { code: "time", words: "the deadline of 0.5 s" },
    });
    expect(heard).toEqual([
      [7, null],
      [7, 5],
    ]);
  });

  it("may throw or leave, and the next answers", async () => {
    expect(await engine.solve(question, THROWS)).toMatchObject({
      kind: "failed",
      reason: "a breakdown: out of sorts, without any point",
    });
    expect(await engine.solve(question, LEAVES)).toMatchObject({
      kind: "failed",
      reason: "a breakdown: its thread ended with code 3, without any point",
    });
    expect(await engine.solve(question, ANSWERS)).toMatchObject({ kind: "optimal" });
  });

  it("is ended by closing, and closing twice does no harm", async () => {
    const asked = engine.solve(question, { ...SPINS, seconds: 30 });
    await engine.close();
    await engine.close();
    expect(await asked).toMatchObject({
      kind: "failed",
      reason: "a breakdown: it was closed, without any point",
    });
  });
});

describe("the real threads", () => {
  it("end javascript-lp-solver in a search of its own that has no end", async () => {
    const engine = new JavascriptLpSolver();
    const endless = writeQuestion({
      name: "branches for ever",
      most: { x: 1, y: 1 },
      rows: [["apart", { x: 2, y: -2 }, "=", 1]],
      whole: true,
    });
    expect(await engine.solve(endless, { seconds: 1, gap: 1e-6 })).toMatchObject({
      kind: "failed",
      reason: "the deadline of 1 s, without any point",
    });
    const [{ question: easy }] = publishedProblems as [(typeof publishedProblems)[number]];
    expect(await engine.solve(easy, { seconds: 10, gap: 1e-6 })).toMatchObject({ kind: "optimal" });
    await engine.close();
  });

  it("start HiGHS from a given point, and tell how its proof comes on", async () => {
    const engine = new Highs();
    const sum = Object.fromEntries(Array.from({ length: 30 }, (_, index) => [`x${index}`, index + 20]));
    const whole = writeQuestion({
      name: "start",
      most: sum,
      rows: [
        [
          "weight",
          Object.fromEntries(Object.keys(sum).map((x, index) => [x, index * index + 7])),
          "<=",
          1999.5,
        ],
      ],
      whole: true,
      between: Object.fromEntries(Object.keys(sum).map((x) => [x, [0, 1] as const])),
    });
    const limits = { seconds: 20, gap: 1e-6 };
    const first = await engine.solve(whole, limits);
    if (first.kind !== "optimal") throw new Error(JSON.stringify(first));
    const best: (number | null)[] = [];
    const again = await engine.solve(whole, {
      ...limits,
      start: first.point,
      onProgress: (progress) => best.push(progress.best),
    });
    expect(again).toMatchObject({ kind: "optimal", objective: first.objective });
    expect(best[0]).toBeCloseTo(first.objective, 6);
    await engine.close();
  });

  it("keep no process alive when nobody closes them", async () => {
    const engines = new URL("../../dist/allocation/engines/threaded.js", import.meta.url);
    const finite = writeQuestion({
      name: "finite",
      least: { x: 2 },
      rows: [["six", { x: 1 }, "=", 6]],
      between: { x: [0, 9] },
    });
    const program = `
      import { Highs, JavascriptLpSolver } from "${engines}";
      const question = ${JSON.stringify(finite)};
      for (const engine of [new Highs(), new JavascriptLpSolver()])
        console.log((await engine.solve(question, { seconds: 10, gap: 1e-6 })).objective);`;
    const child = spawn(process.execPath, ["--input-type=module", "-e", program], { timeout: 20_000 });
    let said = "";
    child.stdout.on("data", (data) => {
      said += data;
    });
    const [code] = await once(child, "close");
    expect([code, said]).toEqual([0, "12\n12\n"]);
  });
});
