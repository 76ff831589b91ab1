import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { composePlan, type PlanJson } from "../../src/contract/index.js";
import { planScenario } from "../../src/planning/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams } from "../../src/quantity/index.js";
import { example, feasibleExamples } from "../support/examples.js";
import { FIGURE_MISTAKES, FLOW_MISTAKES } from "../support/fixtures/printed-mistakes/figures.js";
import { HOUSE_MISTAKES } from "../support/fixtures/printed-mistakes/house.js";
import { SERVING_MISTAKES } from "../support/fixtures/printed-mistakes/serving.js";
import { PRINTED_PLAN } from "../support/fixtures/printed-plan.js";
import { smallScenarios } from "../support/random-scenario.js";
import { recompute } from "../support/recompute.js";

/** More plans can be asked for from outside, and others: RECOMPUTE_RUNS=1000 RECOMPUTE_SEED=5. */
const RUNS = Number(process.env.RECOMPUTE_RUNS ?? 40);
/** About half of the scenarios have a plan. */
const SCENARIOS_OF_A_PLAN = 5;
const SEED = Number(process.env.RECOMPUTE_SEED ?? 21);

/** A quarter of an ounce, which fits none of the amounts; every other plan is weighed in it. */
const COARSE = grams("7.087");

const engines = new Engines();
afterAll(() => engines.close());

/** What is found of a plan, with what rounding to the scale does not explain of the waste. */
function faultsOf(plan: PlanJson): string[] {
  return [...recompute(JSON.stringify(plan)), ...roundingFaults(plan)];
}

/** Each weight that is weighed in steps of the scale may add a step to the waste, or take it off. */
function roundingFaults({ aim, outcome, waste, asked, goings, preps, leftovers }: PlanJson): string[] {
  if (aim !== "waste") return [];
  const movements = goings.length + preps.length + leftovers.length;
  const explained = Number(asked.scaleStep) * movements;
  const added = Number(waste.counted) - Number(outcome.beforeRounding);
  return Math.abs(added) <= explained + 0.001
    ? []
    : [`rounding: ${added} g of waste, and ${movements} movements explain ${explained}`];
}

describe("a plan recomputed from its JSON alone", () => {
  it("says nothing of one worked out by hand", () => {
    expect(recompute(JSON.stringify(PRINTED_PLAN))).toEqual([]);
  });

  it.each([...FIGURE_MISTAKES, ...FLOW_MISTAKES, ...SERVING_MISTAKES, ...HOUSE_MISTAKES])(
    "finds %s",
    (_, change, expected) => {
      const plan = structuredClone(PRINTED_PLAN);
      change(plan);
      expect(recompute(JSON.stringify(plan)).join("\n")).toMatch(expected);
    },
  );

  it.each(feasibleExamples())("agrees with the plan of the example %s", async (name) => {
    const { plan } = await planScenario(example(name), { engines, seconds: 40 });
    expect(faultsOf(plan)).toEqual([]);
    expect(plan.dishes.length).toBeGreaterThan(0);
  });

  it(`agrees with ${RUNS} plans of small scenarios`, async () => {
    const faults: string[] = [];
    let plans = 0;
    for (const [index, { scenario: drawn }] of fc
      .sample(smallScenarios(), { numRuns: SCENARIOS_OF_A_PLAN * RUNS, seed: SEED })
      .entries()) {
      if (plans === RUNS) break;
      const scenario = { ...drawn, scaleStep: index % 2 === 0 ? drawn.scaleStep : COARSE };
      const settled = await planWithinCeilings(scenario, (model) =>
        solveStages(model, { engines, seconds: 20 }),
      );
      if (settled.kind === "none") continue;
      plans++;
      const { decision, ledger, first, stages } = settled;
      const plan = composePlan(scenario, decision, ledger, {
        outcome: first,
        stages,
        warnings: [],
        reasons: [],
      });
      for (const fault of faultsOf(plan)) faults.push(`scenario ${index}: ${fault}`);
    }
    expect(faults).toEqual([]);
    expect(plans).toBe(RUNS);
  });
});
