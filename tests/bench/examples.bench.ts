import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { buildModel, Engines, PROOF_GAP, solve } from "../../src/allocation/index.js";
import { tradeoffCurve } from "../../src/insight/index.js";
import { planningWith, planScenario } from "../../src/planning/index.js";
import { example, feasibleExamples } from "../support/examples.js";
import { solveWithGlpk } from "../support/glpk.js";
import { inTurn, printTable, wholeProcess } from "./measure.js";

const ROUNDS = 3;
const SECONDS = 30;

it("finds all plans of the demo's trade-off, four at least, each certified", async () => {
  const engines = new Engines();
  const began = performance.now();
  const result = await tradeoffCurve(example("demo"), planningWith(engines), { plans: 40, seconds: 120 });
  await engines.close();
  const plans = result.kind === "curve" && result.curve.complete ? result.curve.plans : [];
  expect(plans.length).toBeGreaterThanOrEqual(4);
  expect(plans.every(({ plan }) => plan.outcome.certified)).toBe(true);
  process.stdout.write(`The demo's trade-off took ${((performance.now() - began) / 1000).toFixed(1)} s\n`);
});

it("measures every example against highs alone and GLPK", async () => {
  const engines = new Engines();
  const rows: string[][] = [
    ["example", "whole no.", "proof", "/ highs", "/ glpk", "plan", "/ highs", "process", "memory"],
  ];
  for (const name of feasibleExamples()) {
    const scenario = example(name);
    const { model, objectives } = buildModel(scenario);
    const question = { model, objective: objectives[scenario.aim] };
    const limits = { engines, seconds: SECONDS, gap: PROOF_GAP };
    const whole = model.variables.filter(({ integer, lower, upper }) => integer && lower < upper).length;
    const glpkAnswers = new Set<string>();
    const times = await inTurn(
      {
        proof: async () => {
          expect((await solve(question, limits)).kind).toBe("optimal");
        },
        highs: async () => {
          expect((await solve(question, { ...limits, engine: "highs" })).kind).toBe("optimal");
        },
        glpk: async () => {
          glpkAnswers.add(solveWithGlpk(question.model, question.objective, SECONDS).kind);
        },
        plan: async () => {
          await planScenario(scenario, { engines, seconds: SECONDS });
        },
        planByHighs: async () => {
          await planScenario(scenario, { engines, seconds: SECONDS, engine: "highs" });
        },
      },
      ROUNDS,
    );
    const { proof = 0, highs = 0, glpk = 0, plan = 0, planByHighs = 0 } = times;
    const process = wholeProcess(
      "plan",
      fileURLToPath(new URL(`../../examples/${name}.yaml`, import.meta.url)),
    );
    expect(process.exitCode).toBe(0);
    rows.push([
      name,
      `${whole}`,
      `${proof.toFixed(3)} s`,
      (proof / highs).toFixed(2),
      glpkAnswers.has("optimal") ? (proof / glpk).toFixed(2) : `unproved in ${glpk.toFixed(1)} s`,
      `${plan.toFixed(3)} s`,
      (plan / planByHighs).toFixed(2),
      `${process.seconds.toFixed(2)} s`,
      `${process.megabytes.toFixed(0)} MB`,
    ]);
  }
  await engines.close();
  printTable(`Medians of ${ROUNDS} turns; ratios below 1 are faster than the other engine.`, rows);
});
