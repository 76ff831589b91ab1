import { afterAll, afterEach, describe, expect, it, vi } from "vitest";
import type { Engine } from "../../src/allocation/engine.js";
import {
  buildModel,
  type EngineName,
  Engines,
  type Outcome,
  solveStages,
} from "../../src/allocation/index.js";
import { riskOf, smallestChanges } from "../../src/insight/index.js";
import { type Planned, planScenario } from "../../src/planning/index.js";
import { example } from "../support/examples.js";
import { decisionFor } from "../support/plans.js";

const real = new Engines();
afterAll(() => real.close());
afterEach(() => vi.restoreAllMocks());

/** Engines that say what they are told to, by a clock of their own, and remember how long they were given. */
function scripted(says: (engine: EngineName) => Outcome, takes: (seconds: number) => number) {
  let now = 1000;
  vi.spyOn(performance, "now").mockImplementation(() => now);
  const asked: number[] = [];
  const engine = (name: EngineName): Engine => ({
    name,
    solve: async (_question, { seconds }) => {
      asked.push(seconds);
      now += takes(seconds) * 1000;
      return says(name);
    },
    close: async () => {},
  });
  const names = ["javascript-lp-solver", "highs", "highs and search"] as const;
  const [quick, thorough, broad] = names.map(engine) as [Engine, Engine, Engine];
  return { engines: new Engines(quick, thorough, broad), asked };
}

const none = (engine: EngineName): Outcome => ({ kind: "infeasible", engine, seconds: 0 });

describe("the stages", () => {
  const scenario = example("whole-units");
  const plan = buildModel(scenario);

  async function best(): Promise<(engine: EngineName) => Outcome> {
    const staged = await solveStages(plan, { engines: real, seconds: 20, figuresOnly: true });
    if (staged.kind === "none") throw new Error("there is a plan");
    const { first, point } = staged;
    return (engine) => ({
      ...first,
      kind: "feasible",
      engine,
      point,
      bound: 0,
      stoppedBy: { code: "time", words: "the deadline" },
    });
  }

  it("leave a plan as the first has it where that has taken all the time", async () => {
    const { engines, asked } = scripted(await best(), () => 1);
    const staged = await solveStages(plan, { engines, engine: "highs", seconds: 1 });
    expect(asked).toEqual([0.8]);
    expect(staged).toMatchObject({ kind: "planned", stages: [{ aim: scenario.aim }], before: null });
  });

  it("have the time that is left, and together no more than was asked for", async () => {
    const { engines, asked } = scripted(await best(), (seconds) => seconds);
    await solveStages(plan, { engines, engine: "highs", seconds: 1 });
    expect(asked.slice(0, 2)).toEqual([expect.closeTo(0.8, 9), expect.closeTo(0.6 * 0.2, 9)]);
    expect(asked.length).toBeGreaterThan(2);
    expect(asked.reduce((sum, seconds) => sum + seconds, 0)).toBeLessThanOrEqual(1);
  });
});

describe("a plan", () => {
  it("is sought for a moment even where reading took all the time", async () => {
    const { engines, asked } = scripted(none, () => 0);
    await planScenario(example("smallest"), { engines, engine: "highs", seconds: 0 });
    expect(asked[0]).toBeCloseTo(0.8 * 0.15, 9);
  });

  it("that there is none of is said as soon as that is proved, before what would do is looked for", async () => {
    const { engines, asked } = scripted(none, () => 0.1);
    const said: [Planned, number][] = [];
    const { plan } = await planScenario(example("no-plan"), {
      engines,
      seconds: 2,
      onNoPlan: (proved) => said.push([proved, asked.length]),
    });
    expect(said).toHaveLength(1);
    const [proved, askedBefore] = said[0] as [Planned, number];
    expect(proved.plan).toMatchObject({ outcome: { kind: "infeasible" }, reasons: [] });
    expect(asked.length).toBeGreaterThan(askedBefore);
    expect(plan).toMatchObject({ outcome: { kind: "infeasible" }, reasons: [], reasonsCut: true });
    // Each is given no more than is left.
    expect(asked.length * 0.1).toBeLessThan(2 + 0.2);
    expect(Math.max(...asked.slice(askedBefore))).toBeLessThan(2);
  });

  it("that there is none of is not explained where no time is left", async () => {
    const { engines, asked } = scripted(none, () => 0.1);
    const { plan } = await planScenario(example("no-plan"), { engines, engine: "highs", seconds: 0 });
    expect(asked).toHaveLength(1);
    expect(plan).toMatchObject({ outcome: { kind: "infeasible" }, reasons: [], reasonsCut: true });
  });

  it("that there is none of is explained no longer than there is time, by pairs of changes neither", async () => {
    const scenario = example("impossible");
    let now = 1000;
    let asked = 0;
    vi.spyOn(performance, "now").mockImplementation(() => now);
    const takes = <T>(answer: T) => {
      now += 450;
      asked++;
      return Promise.resolve(answer);
    };
    const tags = scenario.dishes.flatMap(({ name, services }) =>
      services.map((service) => ({ family: "ceiling", dish: name, service })),
    );
    // Nothing is found to be too much where there is no time to find it in.
    const culprits = () => takes(now < 1500 ? tags : []);
    const asking = { culprits, replan: () => takes("no plan" as const) };
    expect(await smallestChanges(scenario, asking, 1)).toEqual({ changes: [], isCut: true });
    expect(asked).toBeLessThanOrEqual(3);
  });

  it("does not say that time was over where all that would do was looked for", async () => {
    const { plan } = await planScenario(example("no-plan"), { engines: real, seconds: 60 });
    expect(plan.reasons.length).toBeGreaterThan(5);
    expect(plan.reasonsCut).toBeUndefined();
  });
});

describe("how sure a plan is", () => {
  it("is drawn less often where little time was asked for, unless the number is stated", async () => {
    const scenario = example("smallest");
    const decision = await decisionFor(scenario, real);
    const drawn = (options: Parameters<typeof riskOf>[2]) => riskOf(decision, scenario, options).draws;
    expect(drawn({ seconds: 1 })).toBe(1250);
    expect(drawn({ seconds: 1, draws: 500 })).toBe(500);
    expect(drawn({ seconds: 10 })).toBe(10_000);
    expect(drawn({})).toBe(10_000);
  });
});
