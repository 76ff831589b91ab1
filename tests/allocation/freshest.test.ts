import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { freshestQuestion, withEveryLot } from "../../src/allocation/freshest.js";
import { blockQuestion, blocksOf } from "../../src/allocation/freshest-blocks.js";
import {
  buildModel,
  certify,
  Engines,
  type Objective,
  type PlanModel,
  type PlanPoint,
  type Staged,
  solve,
  solveStages,
  valueAt,
} from "../../src/allocation/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { example } from "../support/examples.js";
import { smallScenarios } from "../support/random-scenario.js";

const RUNS = 60;
const engines = new Engines();
afterAll(() => engines.close());

type Planned = Extract<Staged, { kind: "planned" }>;

async function plannedOf(scenario: Scenario): Promise<Planned | null> {
  const staged = await solveStages(buildModel(scenario), { engines, seconds: 10 });
  return staged.kind === "planned" ? staged : null;
}

/** Order units of each item in total, and portions by cooking and where they go. */
function heldIn({ plan, point }: PlanPoint): Record<string, number> {
  const counts: Record<string, number> = {};
  const add = (what: string, variable: number): void => {
    counts[what] = Math.round((counts[what] ?? 0) + (point[variable] ?? 0));
  };
  const { buys, serves, spares } = plan.handles;
  for (const { item, variable } of buys) add(`buy ${item.name}`, variable);
  for (const { site, at, variable } of serves) add(`${site.dish.name} ${site.service} at ${at}`, variable);
  for (const { site, destination, variable } of spares)
    add(`${site.dish.name} ${site.service} to ${destination}`, variable);
  return counts;
}

function stands({ model }: PlanModel, objective: Objective, point: readonly number[]): boolean {
  return certify(model, objective, point, valueAt(objective, point)).certified;
}

const freshness = ({ plan, point }: PlanPoint): number => {
  const { objective, start } = freshestQuestion(plan, plan.model, point);
  return valueAt(objective, start);
};

describe("the freshest plan", () => {
  it(`of ${RUNS} small scenarios buys and serves the same, keeps both aims and is never less fresh`, async () => {
    let fresher = 0;
    for (const { scenario } of fc.sample(smallScenarios(), { numRuns: RUNS, seed: 3 })) {
      const staged = await plannedOf(scenario);
      if (staged?.before == null) continue;
      const { before } = staged;
      expect(heldIn(staged)).toEqual(heldIn(before));
      for (const [aim, objective] of Object.entries(staged.plan.objectives) as [string, Objective][]) {
        expect(stands(staged.plan, objective, staged.point)).toBe(true);
        if (aim !== "balanced" || scenario.aim === "balanced")
          expect(valueAt(objective, staged.point)).toBeLessThan(
            valueAt(before.plan.objectives[aim as keyof PlanModel["objectives"]], before.point) + 0.0011,
          );
      }
      const was = freshness(withEveryLot(before.plan, before.point));
      const is = freshness(staged);
      expect(is).toBeLessThan(was + 1e-3 * Math.max(1, was));
      if (is < was - 0.01) fresher++;
    }
    expect(fresher).toBeGreaterThan(RUNS / 20);
  });

  it("starts from the known point in the model with every cut", async () => {
    const known = buildModel(example("demo"));
    const staged = await solveStages(known, { engines, seconds: 10, figuresOnly: true });
    if (staged.kind === "none") throw new Error("the demo has a plan");
    const { plan, point } = withEveryLot(known, staged.point);
    expect(plan.lotGraph.lots.length).toBeGreaterThan(known.lotGraph.lots.length);
    const question = freshestQuestion(plan, plan.model, point);
    const value = valueAt(question.objective, question.start);
    expect(certify(question.model, question.objective, question.start, value)).toMatchObject({
      certified: true,
    });
  });

  it("is solved in blocks that each leave a whole point", async () => {
    const staged = await solveStages(buildModel(example("demo")), {
      engines,
      seconds: 10,
      figuresOnly: true,
    });
    if (staged.kind === "none") throw new Error("the demo has a plan");
    const { plan, point } = withEveryLot(staged.plan, staged.point);
    const question = freshestQuestion(plan, plan.model, point);
    const worth = (at: readonly number[]): number => valueAt(question.objective, at);
    const blocks = blocksOf(plan, question, question.start);
    expect(blocks.length).toBeGreaterThan(2);
    let at = question.start;
    for (const block of blocks) {
      const part = blockQuestion(question, at, block);
      expect(valueAt(part.objective, part.start)).toBeCloseTo(worth(at), 6);
      const outcome = await solve(part, { engines, seconds: 10, gap: 1e-4, start: part.start });
      if (outcome.kind !== "optimal") throw new Error(`a block was ${outcome.kind}`);
      const next = part.whole(outcome.point);
      expect(outcome.objective).toBeCloseTo(worth(next), 6);
      expect(worth(next)).toBeLessThan(worth(at) + 1e-3);
      expect(certify(question.model, question.objective, next, worth(next)).certified).toBe(true);
      at = next;
    }
    expect(worth(at)).toBeLessThan(worth(question.start) - 1);
  });

  it("gives way to the plan before it where it does not stand once rounded", async () => {
    const scenario = example("smallest");
    const said: string[][] = [];
    const settled = await planWithinCeilings(scenario, async (model) => {
      const staged = await solveStages(model, { engines, seconds: 10 });
      if (staged.kind === "none") return staged;
      said.push(staged.stages.map(({ aim }) => aim));
      // Nothing is cooked at all: no plan that stands.
      return { ...staged, point: staged.point.map(() => 0) };
    });
    expect(said).toEqual([["waste", "cost", "freshest"]]);
    expect(settled).toMatchObject({ kind: "plan", stages: [{ aim: "waste" }, { aim: "cost" }] });
  });
});
