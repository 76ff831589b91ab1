import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { RULES_OF, type Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams, money } from "../../src/quantity/index.js";
import { bruteForce } from "../support/brute-force.js";
import { smallScenarios } from "../support/random-scenario.js";

/** More can be asked for from outside: DATED_RUNS=600 DATED_SEED=3. */
const RUNS = Number(process.env.DATED_RUNS ?? 24);
const SEED = Number(process.env.DATED_SEED ?? 31);

const engines = new Engines();
afterAll(() => engines.close());

/** The same over some days, by any place's rules: parts, stock and what is left of dishes grow too old now and then. */
function overDays(scenario: Scenario, index: number): Scenario {
  const last = [1, 3, 2, 6, 4][index % 5] ?? 1;
  const keeps = [3, 5, 9][index % 3] ?? 2;
  const dishes = scenario.dishes.map((dish) => {
    const services = dish.course === null ? [0, 1] : dish.services;
    return { ...dish, services, keepsDays: services.length > 1 ? keeps : null };
  });
  // Cooked stock of what the first dish takes, with a date on it.
  const held = dishes[0]?.lines[0]?.from[0]?.part ?? "";
  const kind = scenario.parts.find(({ name }) => name === held);
  const piece = kind?.pieceWeight == null ? null : Number(kind.pieceWeight / 1000n);
  return {
    ...scenario,
    rules: RULES_OF[index % RULES_OF.length] ?? "us",
    services: scenario.services.map((service, at) =>
      at === 0 ? service : { ...service, day: last, date: `2026-10-${String(2 + last).padStart(2, "0")}` },
    ),
    parts: scenario.parts.map((part, at) => ({
      ...part,
      ...(part.name === held ? { state: "cooked" as const } : {}),
      keepsDays: (index + at) % 2 === 0 ? null : 1 + ((index + at) % 9),
    })),
    dishes,
    partsOnHand: [
      {
        part: held,
        weight: grams(BigInt(piece ?? 160)),
        value: money("0"),
        useBy: null,
        lastDay: index % 2 === 0 ? 0 : 3,
      },
    ],
  };
}

describe("the planner, beside the referee, over days and by the rules of five places", () => {
  it(
    `finds the same best plan, and none where there is none: ${RUNS} scenarios of two services`,
    async () => {
      const faults: string[] = [];
      let plans = 0;
      const drawn = fc
        .sample(smallScenarios(), { numRuns: RUNS * 4, seed: SEED })
        .filter(
          ({ scenario }) =>
            scenario.services.length === 2 && scenario.dishes.every(({ ceiling }) => ceiling === null),
        )
        .slice(0, RUNS);
      for (const [index, { scenario: plain, grain }] of drawn.entries()) {
        const scenario = overDays(plain, index);
        const best = bruteForce(scenario, scenario.aim, { grain });
        const settled = await planWithinCeilings(scenario, (model) =>
          solveStages(model, { engines, seconds: 20 }),
        );
        const note = (text: string) => faults.push(`seed ${SEED}, scenario ${index}: ${text}`);
        if (best === "no plan") {
          if (settled.kind === "plan") note(`has ${settled.first.objective}; the referee has no plan`);
          continue;
        }
        plans++;
        const value = best.value.toNumber() / (scenario.aim === "waste" ? 1000 : 1);
        if (settled.kind === "none")
          note(`says ${settled.outcome.kind}; the referee has ${value}, ${best.plan}`);
        else if (Math.abs(settled.first.objective - value) > 1e-6 * Math.max(1, Math.abs(value)))
          note(`proves ${settled.first.objective}; the referee has ${value}, ${best.plan}`);
      }
      expect(faults).toEqual([]);
      expect(plans).toBeGreaterThan(drawn.length / 4);
    },
    60_000 + RUNS * 1000,
  );
});
