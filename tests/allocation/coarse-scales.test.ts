import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams, milligrams, type Weight } from "../../src/quantity/index.js";
import { smallScenarios } from "../support/random-scenario.js";

/** More can be asked for from outside: COARSE_SEEDS=31,32 COARSE_RUNS=400. */
const SEEDS = (process.env.COARSE_SEEDS ?? "31,32").split(",").map(Number);
const RUNS = Number(process.env.COARSE_RUNS ?? 60);

/** Amounts asked for are multiples of 8 g, or a seventh of that: none of these steps fits them, and some are above them. */
const SCALES: Readonly<Record<string, Weight>> = {
  "5 g": grams("5"),
  "25 g": grams("25"),
  "0.25 oz": grams("7.087"),
  "90 g": grams("90"),
};

const engines = new Engines();
afterAll(() => engines.close());

/** The same with a seventh of every weighed amount. */
function thinned(scenario: Scenario): Scenario {
  const isCounted = (name: string): boolean =>
    scenario.parts.some((part) => part.name === name && part.pieceWeight !== null);
  const seventh = (weight: Weight): Weight => milligrams(weight / 7n);
  const dishes = scenario.dishes.map((dish) => ({
    ...dish,
    lines: dish.lines.map((line) =>
      line.from.some(({ part }) => isCounted(part))
        ? line
        : { ...line, least: seventh(line.least), most: seventh(line.most) },
    ),
  }));
  return { ...scenario, dishes };
}

describe("plans on a coarse scale", () => {
  it.each(SEEDS.flatMap((seed) => Object.keys(SCALES).map((scale) => [seed, scale] as const)))(
    `do not fall short by rounding: ${RUNS} small scenarios of seed %i on a scale of %s, and their sevenths`,
    async (seed, scale) => {
      const short: string[] = [];
      let plans = 0;
      for (const [index, { scenario }] of fc.sample(smallScenarios(), { numRuns: RUNS, seed }).entries()) {
        for (const [size, sized] of Object.entries({ whole: scenario, seventh: thinned(scenario) })) {
          const asked = { ...sized, scaleStep: SCALES[scale] as Weight };
          const settled = await planWithinCeilings(asked, (model) =>
            solveStages(model, { engines, seconds: 5 }),
          );
          if (settled.kind === "plan") plans++;
          else if (settled.outcome.kind === "failed" && settled.outcome.reason.includes("falls short"))
            short.push(`${size} scenario ${index}: ${settled.outcome.reason}`);
        }
      }
      expect(short).toEqual([]);
      expect(plans).toBeGreaterThan(RUNS);
    },
  );
});
