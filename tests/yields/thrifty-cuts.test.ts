import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planScenario } from "../../src/planning/index.js";
import { loadYieldTables, type TableBreakdown } from "../../src/yields/index.js";
import { scenarioOf } from "../support/examples.js";

// Journal of Cookery Science of Japan 45(3), p. 204 (2012), abstract: vegetables cut conventionally, and cut for use
// (only tips, roots and seeds off, skins kept). Points of the weight as purchased by which waste was lower. A fifth
// figure, butterbur 27.7, is of a vegetable that the tables do not hold.
const PUBLISHED = [
  ["turnip", "bunch with tops", "33.1"],
  ["celery", "head with leaves", "32.1"],
  ["spring onion", "bunch", "26.2"],
  ["broccoli", "untrimmed head", "23.3"],
] as const;

const engines = new Engines();
afterAll(() => engines.close());

const { tables } = loadYieldTables();

function breakdownsOf(item: string, form: string): readonly TableBreakdown[] {
  return tables.items.find((each) => each.name === item && each.form === form)?.breakdowns ?? [];
}

/** Food-class percents of a breakdown, in its order. */
function foods({ parts }: TableBreakdown): number[] {
  return parts.flatMap(({ class: kind, fraction }) =>
    kind === "food" ? [fraction.times(100).toNumber()] : [],
  );
}

const sum = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);

describe("cut for use against conventionally", () => {
  // How much of a conventional cut's usable trim the study's cooks threw away is not said: all of it at the most,
  // none at the least. The gain published must lie between.
  it.each(PUBLISHED)(
    "%s, %s: the published gain of %s points is within what our breakdowns say",
    (item, form, gain) => {
      const breakdowns = breakdownsOf(item, form);
      const thriftiest = Math.max(...breakdowns.map((each) => sum(foods(each))));
      const least = Math.min(
        ...breakdowns.map((each) => thriftiest - sum(foods(each))).filter((points) => points > 0),
      );
      const most = Math.max(...breakdowns.map((each) => thriftiest - (foods(each)[0] ?? 0)));
      expect(least).toBeGreaterThan(0);
      expect(Number(gain)).toBeGreaterThan(least);
      expect(Number(gain)).toBeLessThan(most);
    },
  );

  const plannedWaste = async (cut: string, dishes: string) => {
    const scenario = scenarioOf(`scenario: Broccoli
currency: EUR
services: [{name: Lunch, date: 2026-10-08}]
items: {broccoli: {form: untrimmed head, price: 1.10 / head, cut: [${cut}]}}
dishes:
  florets: {portions: 20, lines: [{amount: 122 g, from: broccoli floret}]}
${dishes}`);
    const { plan } = await planScenario(scenario, { engines, seconds: 20 });
    expect(plan.outcome.kind).toBe("optimal");
    const { wastedFood, inedible, purchased } = plan.weights;
    return ((Number(wastedFood) + Number(inedible)) / Number(purchased)) * 100;
  };

  // 20 portions of 122 g are the florets of 8 heads of 500 g exactly.
  it("a plan that has a dish for stems and leaves wastes about the published 23.3 points less of the broccoli", async () => {
    const conventional = await plannedWaste("florets", "");
    const forUse = await plannedWaste(
      "florets",
      "  soup: {portions: 8 to 12, lines: [{amount: 40 to 100 g, from: broccoli stem}]}\n  greens: {portions: 6 to 12, lines: [{amount: 30 to 60 g, from: broccoli leaf}]}\n",
    );
    expect(conventional).toBeCloseTo(38, 6);
    expect(Math.abs(conventional - forUse - 23.3)).toBeLessThan(8);
  });
});
