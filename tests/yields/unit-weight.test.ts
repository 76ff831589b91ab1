import { mean, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { grams, toGrams } from "../../src/quantity/index.js";
import { loadYieldTables, type TableItem, tablesWithTests, type YieldTest } from "../../src/yields/index.js";
import { summariseUnitWeight, unitWeightAfterTests } from "../../src/yields/own-tests/unit-weight.js";
import { aYieldTest } from "../support/own-tests.js";
import { seededNumbers } from "../support/seeded-numbers.js";
import { normal } from "./simulated-kitchens.js";

const { tables } = loadYieldTables();

function crownIn({ items }: { readonly items: readonly TableItem[] }): TableItem {
  const found = items.find(({ name, form }) => name === "broccoli" && form === "crown");
  if (found === undefined) throw new Error("no crown");
  return found;
}
const crown = crownIn(tables);

/** Invented: so many crowns that weigh so many grams together. */
function weighed(units: number, apGrams: number): YieldTest {
  const apWeight = grams(String(apGrams));
  return aYieldTest({
    units,
    apWeight,
    parts: [{ part: "broccoli floret", weight: apWeight, class: "food" }],
  });
}

describe("the weight of a unit by the kitchen's tests", () => {
  it("has the mean, standard error and spread that a statistics package gives, where tests are of equal size", () => {
    const averages = [341.5, 362.25, 355, 349.75, 371];
    const summary = summariseUnitWeight(averages.map((average) => weighed(4, average * 4)));
    const spread = sampleStandardDeviation(averages);
    expect(summary).toMatchObject({ tests: 5, units: 20, upTo: "2026-10-12" });
    expect(summary.grams).toBeCloseTo(mean(averages), 9);
    expect(summary.standardError).toBeCloseTo(spread / Math.sqrt(5), 9);
    expect(summary.spread).toBeCloseTo(spread, 9);
  });

  it("counts a test of ten crowns ten times one of a single crown, and knows no error from one test", () => {
    expect(summariseUnitWeight([weighed(10, 3000), weighed(1, 410)]).grams).toBeCloseTo(310, 9);
    expect(summariseUnitWeight([weighed(4, 1400)])).toMatchObject({ standardError: null, spread: null });
    expect(() => summariseUnitWeight([])).toThrow(RangeError);
  });

  it("lies between the published weight and the tests', nearer the tests the more there are", () => {
    const published = toGrams(crown.unitWeight).toNumber();
    const tests = [1, 2, 3, 5, 9].map((count) =>
      Array.from({ length: count }, (_, index) => weighed(4, 4 * (published * 1.3 + (index % 2)))),
    );
    const after = tests.map((some) => unitWeightAfterTests(crown, some));
    const counts = after.map((each) => each?.testsCount ?? 0);
    expect(counts).toEqual([...counts].sort((left, right) => left - right));
    expect(counts[0]).toBeGreaterThan(0.5);
    expect(counts[4]).toBeLessThan(1);
    for (const each of after) {
      const combined = toGrams(each?.combined ?? crown.unitWeight).toNumber();
      const weighted =
        (each?.testsCount ?? 0) * (each?.grams ?? 0) + (1 - (each?.testsCount ?? 0)) * published;
      expect(Math.abs(combined - weighted)).toBeLessThanOrEqual(0.0501);
    }
  });

  it("finds the spread from unit to unit again, deliveries differing by half of it", () => {
    const random = seededNumbers(11);
    const spread = 40;
    const tests = Array.from({ length: 400 }, (_, index) => {
      const delivery = 350 + normal(random) * spread * 0.5;
      const units = 1 + (index % 8);
      const crowns = Array.from({ length: units }, () => delivery + normal(random) * spread);
      return weighed(units, Math.round(crowns.reduce((sum, each) => sum + each, 0)));
    });
    const found = toGrams(unitWeightAfterTests(crown, tests)?.unitSpread ?? grams("0")).toNumber();
    expect(Math.abs(found - spread)).toBeLessThan(3);
  });

  it("goes into the tables, said in the source; a loose item has none", () => {
    const after = crownIn(tablesWithTests(tables, [weighed(4, 1600), weighed(4, 1640)].map(allParts)));
    expect(after.basis).toBe("own test");
    expect(after.source).toMatch(/^own tests n=2 up to 2026-10-12, combined with .* \(tests count \d\d %\)$/);
    expect(after.unitWeight > crown.unitWeight && after.unitWeight < grams("405")).toBe(true);
    const loose = tables.items.find(({ measure }) => measure === "loose");
    if (loose === undefined) throw new Error("no loose item");
    expect(unitWeightAfterTests(loose, [weighed(1, 1000)])).toBeNull();
  });
});

/** The same weighing with a little of every part. */
function allParts(test: YieldTest): YieldTest {
  const florets = crown.breakdowns.find(({ name }) => name === "florets");
  const parts = (florets?.parts ?? []).map(({ part, class: partClass }) => ({
    part,
    class: partClass,
    weight: grams("50"),
  }));
  return { ...test, parts, loss: grams(String(Number(test.apWeight) / 1000 - 50 * parts.length)) };
}
