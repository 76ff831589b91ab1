import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { buildModel, Engines, solve, solveStages } from "../../src/allocation/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { Decimal, money, ZERO } from "../../src/quantity/index.js";
import { bruteForce } from "../support/brute-force.js";
import { leekItem, leekScenario } from "../support/leek.js";
import { dishOf, g, lineOf, serviceOf, withGift } from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

interface Drawn {
  readonly white: number;
  readonly green: number;
  readonly portions: number;
  readonly batch: number;
  readonly range: number;
  readonly rate: string;
  readonly cooked: boolean;
  readonly staff: number | null;
  readonly chilled: number | null;
  readonly aim: "waste" | "cost";
}

const DRAWN: fc.Arbitrary<Drawn> = fc.record({
  white: fc.integer({ min: 1, max: 12 }).map((steps) => steps * 20),
  green: fc.integer({ min: 0, max: 4 }).map((steps) => steps * 20),
  portions: fc.integer({ min: 1, max: 3 }),
  batch: fc.integer({ min: 2, max: 4 }),
  range: fc.constantFrom(0, 20, 40),
  rate: fc.constantFrom("1", "2", "0.5"),
  cooked: fc.boolean(),
  staff: fc.constantFrom(null, null, 30, 60),
  chilled: fc.constantFrom(null, null, 60, 120),
  aim: fc.constantFrom("waste" as const, "waste" as const, "cost" as const),
});

/** Bakes from a batch, with some over or some for the next day, and a salad that takes what it can. */
function scenarioOf(drawn: Drawn): Scenario {
  const { white, green, portions, batch, range, rate, staff, chilled, cooked, aim } = drawn;
  const onHand = (part: string, weight: number) => ({
    part,
    weight: g(weight),
    value: money("0"),
    useBy: null,
    lastDay: null,
  });
  const days = chilled === null ? [0] : [0, 1];
  return leekScenario(
    [
      dishOf(
        "bake",
        portions,
        [
          lineOf(
            [20, 20 + range],
            ["leek white", { part: "leek green", rate: new Decimal(rate) }],
            cooked ? { stated: "cooked", cookingYield: new Decimal("0.5") } : {},
          ),
        ],
        { services: days, keepsDays: 2, batch: { portions: batch, halves: batch === 4, vessel: "tray" } },
      ),
      dishOf("salad", [0, 2], [lineOf([20, 30], ["leek white"])], { optional: true }),
    ],
    {
      aim,
      services: days.map((day) =>
        serviceOf(`day ${day}`, day, { overage: chilled === null ? new Decimal(1) : ZERO }),
      ),
      items: [leekItem({ buying: null })],
      partsOnHand: [onHand("leek white", white), ...(green === 0 ? [] : [onHand("leek green", green)])],
      destinations: withGift(staff, { food: false, portions: true }),
      limits: { chilled: chilled === null ? null : g(chilled), handsMinutes: null, vessels: [] },
    },
  );
}

describe("portions of no one weight", () => {
  it("are weighed as trying everything weighs them", async () => {
    const drawn = fc.sample(DRAWN, { numRuns: 150, seed: 7 });
    let weighed = 0;
    let plans = 0;
    for (const one of drawn) {
      const scenario = scenarioOf(one);
      const best = bruteForce(scenario, scenario.aim, { grain: 5 });
      const { model, objectives, handles } = buildModel(scenario);
      const outcome = await solve(
        { model, objective: objectives[scenario.aim] },
        { engines, seconds: 20, gap: 1e-7 },
      );
      if (handles.portionWeights.size > 0) weighed++;
      const found =
        outcome.kind === "optimal" ? outcome.objective * (scenario.aim === "waste" ? 1000 : 1) : outcome.kind;
      const asked = JSON.stringify(one);
      if (best === "no plan") expect([asked, found]).toEqual([asked, "infeasible"]);
      else {
        plans++;
        expect([asked, found]).toEqual([asked, expect.closeTo(best.value.toNumber(), 4)]);
        const settled = await planWithinCeilings(scenario, (plan) =>
          solveStages(plan, { engines, seconds: 20 }),
        );
        expect([asked, settled.kind]).toEqual([asked, "plan"]);
      }
    }
    expect(weighed).toBeGreaterThan(80);
    expect(plans).toBeGreaterThan(50);
  }, 300_000);
});
