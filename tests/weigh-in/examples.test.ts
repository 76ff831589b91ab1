import { afterAll, describe, expect, it } from "vitest";
import { anyPoint, Engines } from "../../src/allocation/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { milligrams, roundTogether, splitByShares } from "../../src/quantity/index.js";
import type { Row } from "../../src/weigh-in/row.js";
import { example, feasibleExamples } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { seededNumbers } from "../support/seeded-numbers.js";
import { happenedBy, keptPlan, weighedFile } from "../support/weighing.js";

const SEED = 20261106;

const engines = new Engines();
afterAll(() => engines.close());

describe.each(feasibleExamples())("the example %s, served", (name) => {
  it("closes when every cut is weighed to the scale, in units heavier and lighter than planned", async () => {
    const scenario = example(name);
    const settled = await planWithinCeilings(scenario, (model) => anyPoint(model, { engines, seconds: 30 }));
    if (settled.kind !== "plan") throw new Error(`${name} has no plan`);
    const plan = keptPlan(scenario, settled.decision);
    const next = seededNumbers(SEED);
    const step = scenario.scaleStep;
    const figures = new Map<string, bigint>();
    const keyOf = (what: string, service: number | null, item: string, way: string, part: string) =>
      JSON.stringify([what, service, item, way, part]);
    for (const { item, breakdown, service, weight, parts, loss } of settled.decision.cuts) {
      const moved = (share: bigint) => (share * BigInt(900 + Math.floor(200 * next()))) / 1000n;
      const shares = [...parts.map((part) => moved(part.weight)), moved(loss)];
      const whole = (roundTogether([milligrams(moved(weight))], step)[0] ?? weight) as bigint;
      const gave = roundTogether(splitByShares(milligrams(whole), shares), step);
      figures.set(keyOf("cut", service, item, breakdown, ""), whole);
      [...parts.map(({ part }) => part), "loss"].forEach((part, index) => {
        figures.set(keyOf("cut gave", service, item, breakdown, part), gave[index] ?? 0n);
      });
    }
    const text = weighedFile(plan, scenario, ({ what, service, name: item, way, part, measure }: Row) =>
      measure === "weight" ? (figures.get(keyOf(what, service, item, way, part)) ?? null) : null,
    );
    const happened = happenedBy(plan, scenario, text);
    if (Array.isArray(happened)) throw new Error(happened.join("\n"));
    expectBalanced(happened.plan);
    const cuts = happened.rows.filter(({ what, measure }) => what.startsWith("cut") && measure === "weight");
    expect(cuts.length).toBeGreaterThan(0);
    for (const { weighed, reading, actual, what, service, name: item, way, part } of cuts) {
      expect(weighed).toBe(true);
      expect(reading).toBe(figures.get(keyOf(what, service, item, way, part)));
      const off = Number(reading - actual);
      expect(Math.abs(off)).toBeLessThanOrEqual((Number(step) * cuts.length) / 2);
    }
    expect(happened.plan.weights).not.toEqual(plan.weights);
  });
});
