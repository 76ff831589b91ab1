import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { settle } from "../../src/planning/index.js";
import { grams, type Weight } from "../../src/quantity/index.js";
import { smallScenarios } from "../support/random-scenario.js";

/** More can be asked for from outside: COARSE_SEEDS=31,32 COARSE_RUNS=400. */
const SEEDS = (process.env.COARSE_SEEDS ?? "31,32").split(",").map(Number);
const RUNS = Number(process.env.COARSE_RUNS ?? 60);

/** Coarser than the amounts asked for, which are multiples of 10 g: none of them is a multiple of these. */
const SCALES: Readonly<Record<string, Weight>> = {
  "5 g": grams("5"),
  "25 g": grams("25"),
  "0.25 oz": grams("7.087"),
  "90 g": grams("90"),
  "13.3 g": grams("13.3"),
};

const engines = new Engines();
afterAll(() => engines.close());

describe("plans on a coarse scale", () => {
  it.each(SEEDS.flatMap((seed) => Object.keys(SCALES).map((scale) => [seed, scale] as const)))(
    `do not fall short by rounding: ${RUNS} small scenarios of seed %i on a scale of %s`,
    async (seed, scale) => {
      const short: string[] = [];
      let plans = 0;
      for (const [index, { scenario }] of fc.sample(smallScenarios(), { numRuns: RUNS, seed }).entries()) {
        const asked = { ...scenario, scaleStep: SCALES[scale] as Weight };
        const settled = await settle(asked, (model) => solveStages(model, { engines, seconds: 5 }));
        if (settled.kind === "plan") plans++;
        else if (settled.outcome.kind === "failed")
          short.push(`scenario ${index}: ${settled.outcome.reason}`);
      }
      expect(short).toEqual([]);
      expect(plans).toBeGreaterThan(RUNS / 2);
    },
  );
});
