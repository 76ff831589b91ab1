import { afterAll, describe, expect, it } from "vitest";
import type { Engine, EngineName, Outcome, Question } from "../../src/allocation/engine.js";
import type { Tag } from "../../src/allocation/model.js";
import { Engines, solve } from "../../src/allocation/solve.js";
import { writeQuestion } from "../support/write-model.js";
import { publishedProblems } from "./published-problems.js";
import { trapProblems } from "./trap-problems.js";

const limits = { seconds: 10, gap: 1e-6 };

/** An engine that says what it is told to, and remembers what it was asked. */
class Scripted implements Engine {
  readonly asked: number[] = [];
  constructor(
    readonly name: EngineName,
    private readonly says: (engine: EngineName) => Outcome,
  ) {}
  async solve(_question: Question, { seconds }: { seconds: number }): Promise<Outcome> {
    this.asked.push(seconds);
    return this.says(this.name);
  }
  async close(): Promise<void> {}
}

const SMALL = writeQuestion({
  name: "small",
  least: { x: 1 },
  rows: [["some", { x: 2 }, ">=", 5]],
  whole: true,
  between: { x: [0, 9] },
});

type Say = (engine: EngineName) => Outcome;
const optimal =
  (point: readonly number[], objective: number, bound = objective): Say =>
  (engine) => ({ kind: "optimal", engine, point, objective, bound, gap: 0, seconds: 0, stoppedBy: null });
const none =
  (kind: "infeasible" | "unbounded"): Say =>
  (engine) => ({ kind, engine, seconds: 0 });
const DEADLINE = { code: "time", words: "the deadline" } as const;
const failed: Say = (engine) => ({
  kind: "failed",
  engine,
  seconds: 0,
  reason: "its own words",
  stoppedBy: null,
});
const halfway: Say = (engine) => ({
  ...{ kind: "feasible", engine, point: [4], objective: 4, bound: 3, gap: 0.25, seconds: 0 },
  stoppedBy: DEADLINE,
});

async function ask(
  quick: Say,
  thorough: Say,
  engine?: EngineName,
  question = SMALL,
  seconds = limits.seconds,
) {
  const first = new Scripted("javascript-lp-solver", quick);
  const second = new Scripted("highs", thorough);
  const third = new Scripted("highs and search", thorough);
  const engines = new Engines(first, second, third);
  const outcome = await solve(question, { ...limits, seconds, engines, ...(engine && { engine }) });
  const asked = [first.asked.length, second.asked.length];
  return { outcome, asked, searched: third.asked.length, firstSeconds: first.asked[0] };
}

describe("which engine is asked", () => {
  it("javascript-lp-solver alone, for a quarter of a second, when it proves a small plan", async () => {
    const { outcome, asked, firstSeconds } = await ask(optimal([3], 3), failed);
    expect(outcome).toMatchObject({ kind: "optimal", engine: "javascript-lp-solver", objective: 3 });
    expect([asked, firstSeconds]).toEqual([[1, 0], 0.25]);
  });

  it("and of less than that in all, so that HiGHS has some of it", async () => {
    const { asked, firstSeconds } = await ask(halfway, optimal([3], 3), undefined, SMALL, 0.2);
    expect(asked).toEqual([1, 1]);
    expect(firstSeconds).toBeCloseTo(0.08, 9);
  });

  it.each([
    ["leaves it unproved", halfway],
    ["fails", failed],
    ["says there is no plan", none("infeasible")],
    ["says there is no end", none("unbounded")],
    ["breaks a row", optimal([2], 2)],
    ["prices its point wrongly", optimal([3], 2)],
    ["returns half a head", optimal([2.5], 2.5)],
  ])("then HiGHS, when it %s", async (_, says) => {
    const { outcome, asked } = await ask(says, optimal([3], 3));
    expect(outcome).toMatchObject({ kind: "optimal", engine: "highs", point: [3] });
    expect(asked).toEqual([1, 1]);
  });

  it("HiGHS at once with more than 18 whole numbers, or more than 10 where dishes are chosen", async () => {
    const sized = (whole: number, tag: Tag): Question => {
      const extra = { name: "more", tag, lower: 0, upper: 1, integer: true };
      const variables = [...SMALL.model.variables, ...Array<typeof extra>(whole - 1).fill(extra)];
      return { ...SMALL, model: { ...SMALL.model, variables } };
    };
    const askedOf = async (whole: number, family: string) => {
      const point = [3, ...Array<number>(whole - 1).fill(0)];
      const says = optimal(point, 3);
      return (await ask(says, says, undefined, sized(whole, { family }))).asked;
    };
    expect(await askedOf(18, "cut")).toEqual([1, 0]);
    expect(await askedOf(19, "cut")).toEqual([0, 1]);
    expect(await askedOf(10, "made")).toEqual([1, 0]);
    expect(await askedOf(11, "made")).toEqual([0, 1]);
  });

  it("HiGHS with the search beside it from 100 whole numbers on", async () => {
    const sized = (whole: number): Question => {
      const extra = { name: "more", tag: { family: "cut" }, lower: 0, upper: 1, integer: true };
      const variables = [...SMALL.model.variables, ...Array<typeof extra>(whole - 1).fill(extra)];
      return { ...SMALL, model: { ...SMALL.model, variables } };
    };
    const says = (whole: number) => optimal([3, ...Array<number>(whole - 1).fill(0)], 3);
    expect(await ask(failed, says(99), undefined, sized(99))).toMatchObject({ asked: [0, 1], searched: 0 });
    expect(await ask(failed, says(100), undefined, sized(100))).toMatchObject({ asked: [0, 0], searched: 1 });
    expect(await ask(failed, says(100), "highs", sized(100))).toMatchObject({ asked: [0, 1], searched: 0 });
    const named = "highs and search";
    expect(await ask(failed, says(1), named)).toMatchObject({ asked: [0, 0], searched: 1 });
  });

  it("HiGHS at once for a large continuous model", async () => {
    const { asked } = await ask(failed, optimal([3], 3), undefined, {
      ...SMALL,
      model: { ...SMALL.model, rows: Array(200_001).fill(SMALL.model.rows[0]) },
    });
    expect(asked).toEqual([0, 1]);
  });

  it("the one that is named, and no other", async () => {
    const named = "javascript-lp-solver";
    expect(await ask(optimal([3], 3), failed, named)).toMatchObject({ asked: [1, 0], firstSeconds: 10 });
    expect(await ask(failed, optimal([3], 3), "highs")).toMatchObject({ asked: [0, 1] });
    expect(await ask(halfway, failed, named)).toMatchObject({
      asked: [1, 0],
      outcome: { kind: "feasible", gap: 0.25, stoppedBy: DEADLINE },
    });
    expect(await ask(failed, optimal([3], 3), named)).toMatchObject({
      asked: [1, 0],
      outcome: { kind: "failed", reason: "its own words" },
    });
  });
});

describe("what is believed", () => {
  const named = "javascript-lp-solver";

  it("that there is no plan, when HiGHS agrees", async () => {
    expect((await ask(none("infeasible"), none("infeasible"))).outcome).toMatchObject({
      kind: "infeasible",
      engine: "highs",
    });
    expect((await ask(none("infeasible"), none("infeasible"), named)).outcome).toMatchObject({
      kind: "infeasible",
      engine: named,
    });
    expect((await ask(none("infeasible"), optimal([3], 3), named)).outcome).toMatchObject({
      kind: "failed",
      reason: "it says infeasible, but HiGHS says optimal",
    });
    expect((await ask(none("unbounded"), failed, named)).outcome).toMatchObject({
      kind: "failed",
      reason: "it says unbounded, but HiGHS could not say: its own words",
    });
  });

  it("no point that breaks the model, whoever proposes it", async () => {
    expect((await ask(failed, optimal([2], 2))).outcome).toMatchObject({
      kind: "failed",
      engine: "highs",
      reason: "its point does not stand: row some is 1 too little",
    });
  });

  it("no proof that does not close the gap at the certified objective", async () => {
    expect((await ask(failed, optimal([3], 3, 2.9))).outcome).toMatchObject({
      kind: "feasible",
      objective: 3,
      bound: 2.9,
      stoppedBy: { code: "rounding", words: "rounding to whole numbers" },
    });
  });
});

describe("with the real engines", () => {
  const engines = new Engines();
  afterAll(() => engines.close());

  it.each([...publishedProblems, ...trapProblems])("$name ($source)", async ({ question, expected }) => {
    for (const engine of [undefined, "highs"] as const) {
      const outcome = await solve(question, { ...limits, engines, ...(engine && { engine }) });
      if (typeof expected === "string") expect(outcome.kind).toBe(expected);
      else {
        expect(outcome.kind).toBe("optimal");
        expect("objective" in outcome && outcome.objective).toBeCloseTo(expected, 5);
      }
    }
  });
});
