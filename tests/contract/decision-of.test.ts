import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { anyPoint, Engines } from "../../src/allocation/index.js";
import {
  composePlan,
  decisionOf,
  type PlanJson,
  PlanMismatch,
  planSchema,
  withStockOf,
} from "../../src/contract/index.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { keepLedger } from "../../src/ledger/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams } from "../../src/quantity/index.js";
import { lastDayOfLot } from "../../src/safety/index.js";
import { example, feasibleExamples } from "../support/examples.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";
import { keptIn } from "../support/kept.js";
import { randomPlan } from "../support/random-decision.js";

const SEED = 20261103;
const RUNS = 150;

const engines = new Engines();
afterAll(() => engines.close());

/** The decision's JSON as another program would read it from a file. */
function written(scenario: Scenario, decision: Decision): PlanJson {
  const outcome = { kind: "infeasible", engine: "highs", seconds: 0 } as const;
  const findings = { outcome, stages: [], warnings: [], reasons: [] };
  const plan = composePlan(scenario, decision, keepLedger(scenario, decision), findings);
  return planSchema.parse(JSON.parse(JSON.stringify(plan)));
}

/** Nothing bought and nothing cooked, which closes too. */
function nothingDecided(): Decision {
  const nothing = { purchases: [], cuts: [], binned: [], keptItems: [], preps: [], goings: [] };
  return { ...nothing, cookings: [], sends: [], kept: [] };
}

describe("the decision read back from a plan's JSON", () => {
  it.each(feasibleExamples())("is the one the example %s was planned with", async (name) => {
    const scenario = example(name);
    const settled = await planWithinCeilings(scenario, (model) => anyPoint(model, { engines, seconds: 30 }));
    if (settled.kind !== "plan") throw new Error(`${name} has no plan`);
    expect(decisionOf(written(scenario, settled.decision), scenario)).toEqual(settled.decision);
  });

  it("is the one decided, whatever was decided", () => {
    fc.assert(
      fc.property(randomPlan(), ({ scenario, decision }) => {
        const dated = {
          ...decision,
          kept: decision.kept.map((kept) => ({ ...kept, lastDay: lastDayOfLot(kept.lot, scenario) })),
        };
        expect(decisionOf(written(scenario, dated), scenario)).toEqual(dated);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });
});

describe("a plan of another scenario", () => {
  const changes: readonly [string, Partial<Scenario>, RegExp][] = [
    ["another name", { name: "Another hall" }, /the scenario is "Another hall"/],
    ["an item less", { items: hallScenario.items.slice(1) }, /the item "squash"/],
    [
      "a dish by another name",
      { dishes: hallScenario.dishes.map((dish) => ({ ...dish, name: `New ${dish.name}` })) },
      /the dish/,
    ],
    ["a service less", { services: hallScenario.services.slice(0, 1) }, /the service/],
    ["a step less", { steps: hallScenario.steps.slice(1) }, /the step/],
    ["nowhere for it to go", { destinations: [] }, /the destination/],
    ["nothing in the house", { partsOnHand: [] }, /in the house/],
  ];

  it.each(changes)("is refused: %s", (_, change, words) => {
    const read = () => decisionOf(hallPlan, { ...hallScenario, ...change });
    expect(read).toThrow(PlanMismatch);
    expect(read).toThrow(words);
  });

  it("is read where only a weight in the house is reckoned otherwise, and keeps its own", () => {
    const partsOnHand = hallScenario.partsOnHand.map((held) => ({ ...held, weight: grams("1") }));
    const { partsOnHand: stock } = withStockOf(hallPlan, { ...hallScenario, partsOnHand });
    expect(stock).toEqual(hallScenario.partsOnHand);
  });

  it("is read where nothing is changed", () => {
    expect(decisionOf(hallPlan, hallScenario).goings).toHaveLength(hallPlan.goings.length);
  });
});

describe("a plan kept by an earlier version", () => {
  const scenario = example("whole-units");
  const planned = written(scenario, nothingDecided());
  const plan: PlanJson = { ...planned, outcome: { ...planned.outcome, kind: "feasible" } };

  it("is read, with what plans have had added since", () => {
    const { transfers: _, weights: __, ...older } = plan;
    expect(keptIn(older, scenario)).toEqual(plan);
    expect(keptIn(JSON.parse(JSON.stringify(plan)), scenario)).toEqual(plan);
  });

  it("is none without what was decided", () => {
    const { goings: _, ...broken } = plan;
    expect(keptIn(broken, scenario)).toBeNull();
    expect(keptIn("plan", scenario)).toBeNull();
  });
});
