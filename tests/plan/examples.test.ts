import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planSchema } from "../../src/contract/index.js";
import { planScenario } from "../../src/planning/index.js";
import { example, exampleNames, feasibleExamples, WITHOUT_PLAN } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";

const engines = new Engines();
afterAll(() => engines.close());

describe.each(feasibleExamples())("the example %s", (name) => {
  it("is planned, certified, proved, and balances to the last unit", async () => {
    const { plan } = await planScenario(example(name), { engines, seconds: 40 });
    const parsed = planSchema.parse(JSON.parse(JSON.stringify(plan)));
    expect(parsed).toEqual(JSON.parse(JSON.stringify(plan)));
    expect(plan.outcome).toMatchObject({ kind: "optimal", certified: true, stoppedBy: null });
    expect(plan.stages.map(({ aim }) => aim)[0]).toBe(plan.aim);
    expectBalanced(plan);
  });

  it("gives every dish no more than its ceiling, by the ledger", async () => {
    const { plan } = await planScenario(example(name), { engines, seconds: 40 });
    for (const { ceiling, cost, portions } of plan.dishes) {
      if (ceiling !== null) expect(Number(cost)).toBeLessThanOrEqual(Number(ceiling) * portions + 1e-9);
    }
  });

  it("has the same least aim by each engine that proves it", async () => {
    const scenario = example(name);
    const proved = new Map<string, number>();
    const wasted: number[] = [];
    for (const engine of ["highs", "javascript-lp-solver"] as const) {
      const seconds = engine === "highs" ? 40 : 4;
      const { plan } = await planScenario(scenario, { engines, seconds, engine });
      if (plan.outcome.kind === "optimal") wasted.push(Number(plan.weights.wastedFood));
      if (plan.outcome.kind === "optimal") proved.set(engine, Number(plan.outcome.beforeRounding));
      else expect(plan.outcome).toMatchObject({ certified: plan.outcome.kind === "feasible" });
    }
    const values = [...proved.values()];
    const scale = Math.max(0.1, ...values.map(Math.abs));
    expect(proved.has("highs")).toBe(true);
    // What later stages may give up of least waste is taken back, so that the gram printed is the same.
    if (scenario.aim === "waste") for (const each of wasted) expect(each).toBeCloseTo(wasted[0] ?? 0, 2);
    for (const value of values) expect(Math.abs(value - (values[0] ?? 0)) / scale).toBeLessThanOrEqual(1e-6);
    // Measured: javascript-lp-solver does not prove the whole weekend in any time a cook would wait.
    expect(proved.has("javascript-lp-solver")).toBe(name !== "demo");
  });
});

describe.each(WITHOUT_PLAN)("the example %s", (name) => {
  it("has no plan, and says what alone would make one", async () => {
    const { plan } = await planScenario(example(name), { engines, seconds: 20 });
    expect(plan.outcome.kind).toBe("infeasible");
    expect(plan.reasons.length).toBeGreaterThanOrEqual(4);
    expectBalanced(plan);
  });
});

it("has an example of each kind that is promised", () => {
  expect(exampleNames()).toEqual(
    expect.arrayContaining([
      "demo",
      "impossible",
      "no-plan",
      "smallest",
      "trim-credit",
      "two-forms",
      "us-units",
      "whole-units",
    ]),
  );
});
