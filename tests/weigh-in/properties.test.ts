import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decisionOf, planSchema } from "../../src/contract/index.js";
import { milligrams, roundTogether } from "../../src/quantity/index.js";
import { writeWeighIn } from "../../src/weigh-in/index.js";
import type { Row } from "../../src/weigh-in/row.js";
import { expectBalanced } from "../support/plan-checks.js";
import { type RandomPlan, randomPlan } from "../support/random-decision.js";
import { happenedBy, keptPlan, rowsToWeigh, weighedFile } from "../support/weighing.js";

const SEED = 20261104;
const RUNS = 100;
console.info(`weigh-in properties: seed ${SEED}, ${RUNS} runs each`);

/** Plans whose steps and cuts do not weigh single milligrams, as no scale would show them. */
function holds(property: fc.IPropertyWithHooks<[RandomPlan, number]>): void {
  fc.assert(property, { seed: SEED, numRuns: RUNS, endOnFailure: true });
}

const dice = () => fc.integer({ min: 1, max: 2 ** 31 });

/** A number in [0, 1) of the row and the throw. */
function chance(row: Row, seed: number): number {
  let mixed = seed;
  for (const letter of JSON.stringify([
    row.what,
    row.name,
    row.way,
    row.part,
    row.service,
    row.lot,
    row.measure,
  ]))
    mixed = Math.imul(mixed ^ letter.charCodeAt(0), 0x45d9f3b) ^ (mixed >>> 15);
  return ((mixed >>> 0) % 10_007) / 10_007;
}

describe("whatever is weighed", () => {
  it("nothing: what was planned happened, to the milligram", () => {
    holds(
      fc.property(randomPlan(), dice(), ({ scenario, decision }, _seed) => {
        const plan = keptPlan(scenario, decision);
        const happened = happenedBy(plan, scenario, writeWeighIn(rowsToWeigh(plan, scenario), scenario));
        if (Array.isArray(happened)) throw new Error(happened.join("\n"));
        // Two entries of one row are split as one: a milligram may be rounded otherwise.
        for (const [name, grams] of Object.entries(happened.plan.weights))
          if (name !== "unit")
            expect(Number(grams)).toBeCloseTo(Number(plan.weights[name as "purchased"]), 1);
        expect(happened.plan.money.spent).toBe(plan.money.spent);
        expect(happened.plan.weighIn?.weighed).toBe(0);
        expectBalanced(happened.plan);
      }),
    );
  });

  it("everything, as the scale shows what was planned: it is never refused, and closes", () => {
    holds(
      fc.property(randomPlan(), dice(), ({ scenario, decision }, _seed) => {
        const plan = keptPlan(scenario, decision);
        const shown = (row: Row) =>
          row.measure === "weight"
            ? (roundTogether([milligrams(row.planned)], scenario.scaleStep)[0] ?? 0n)
            : row.planned;
        const happened = happenedBy(plan, scenario, weighedFile(plan, scenario, shown));
        if (Array.isArray(happened)) {
          // An item all of whose weight is under half a gram, and which was paid for, cannot be weighed so.
          for (const problem of happened)
            expect(problem).toMatch(/cost something and weighed nothing|no weight to carry/);
          return;
        }
        expect(happened.plan.weighIn?.weighed).toBe(happened.plan.weighIn?.figures);
        expectBalanced(happened.plan);
      }),
    );
  });

  it("anything at all: it is refused with a place and a remedy, or it closes", () => {
    let closed = 0;
    let refused = 0;
    holds(
      fc.property(randomPlan(), dice(), ({ scenario, decision }, seed) => {
        const plan = keptPlan(scenario, decision);
        const share = [0.03, 0.15, 0.6][seed % 3] ?? 1;
        const text = weighedFile(plan, scenario, (row) => {
          if (chance(row, seed) > share) return null;
          const kind = chance(row, seed + 1);
          if (kind < 0.1) return 0n;
          if (kind < 0.4) return row.planned;
          const changed = BigInt(Math.round(Number(row.planned) * 2 * chance(row, seed + 2)));
          return row.measure === "count" ? (changed / 1000n) * 1000n : changed;
        });
        const happened = happenedBy(plan, scenario, text);
        if (Array.isArray(happened)) {
          refused++;
          expect(happened.length).toBeGreaterThan(0);
          for (const problem of happened)
            expect(problem).toMatch(/^test\.weigh-in\.csv:\d+:\d+: .+\. [A-Z].+/);
          return;
        }
        closed++;
        const again = planSchema.parse(JSON.parse(JSON.stringify(happened.plan)));
        expectBalanced(again);
        // What happened can be read back and reckoned on like any plan.
        const read = decisionOf(again, happened.scenario);
        expect(keptPlan(happened.scenario, read).weights).toEqual(again.weights);
      }),
    );
    expect(closed).toBeGreaterThan(RUNS / 5);
    expect(refused).toBeGreaterThan(RUNS / 5);
    console.info(`weigh-in properties: ${closed} closed, ${refused} refused`);
  });
});
