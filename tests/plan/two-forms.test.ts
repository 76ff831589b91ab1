import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { renderPages } from "../../src/pages/index.js";
import { planScenario } from "../../src/planning/index.js";
import { money } from "../../src/quantity/index.js";
import { bruteForce } from "../support/brute-force.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";

const FILE = fileURLToPath(new URL("cases/two-forms-of-one-item.yaml", import.meta.url));
const scenario = scenarioOf(readFileSync(FILE, "utf8"));
const engines = new Engines();
afterAll(() => engines.close());

const planOf = async (asked: Scenario) => {
  const { plan } = await planScenario(asked, { engines, seconds: 10 });
  expectBalanced(plan);
  return plan;
};
const priced = (item: string, price: string, of: Scenario = scenario): Scenario => ({
  ...of,
  items: of.items.map((each) =>
    each.name === item && each.buying !== null
      ? { ...each, buying: { ...each.buying, price: money(price) } }
      : each,
  ),
});

/**
 * A head gives 500 g of dice, 300 g of leaf and 200 g of peel for 2.00; a heart 400 g of dice and 40 g of peel
 * for 1.80. The bake wants 10 x 90 g = 900 g of dice, the soup 3 x 100 g = 300 g of leaf. Leaf takes a head at
 * least. One head leaves 400 g of dice to find: one heart has just that, and nothing is wasted, for 3.80. Two
 * heads give 1,000 g of dice and 600 g of leaf: 400 g are wasted, for 4.00. All else buys more and wastes more.
 */
describe("a head and a heart of one marrow", () => {
  const bought = ({ purchases }: Awaited<ReturnType<typeof planOf>>) =>
    purchases.map(({ item, form, units }) => `${units} ${item}, ${form}`);

  it("are bought one of each where that wastes nothing", async () => {
    const plan = await planOf(scenario);
    expect(plan.outcome).toMatchObject({ kind: "optimal", certified: true });
    expect(bought(plan)).toEqual(["1 marrow, untrimmed", "1 marrow heart, trimmed"]);
    expect(plan.weights).toMatchObject({
      purchased: "1440",
      inDishes: "1200",
      wastedFood: "0",
      inedible: "240",
    });
    // The heart's own peel is its thriftiest: none of it counts as avoidable beside the head's fifth.
    expect(plan.weights.avoidablePeel).toBe("0");
  });

  it("share their cost within each item's own cut: dice costs what both gave it", async () => {
    // Head: 2.00 over 800 g edible, so 1.25 on 500 g of dice and 0.75 on the leaf; heart: 1.80 on its dice.
    const { dishes } = await planOf(scenario);
    expect(dishes.map(({ dish, cost }) => [dish, Number(cost)])).toEqual([
      ["bake", 3.05],
      ["soup", 0.75],
    ]);
  });

  it.each([
    ["1.99", ["1 marrow, untrimmed", "1 marrow heart, trimmed"], 3.99],
    ["2.01", ["2 marrow, untrimmed"], 4],
  ])("turn with the price of the heart where cost comes first: at %s", async (price, expected, cost) => {
    const cheapest: Scenario = { ...priced("marrow heart", price), aim: "cost" };
    const plan = await planOf(cheapest);
    expect(bought(plan)).toEqual(expected);
    expect(Number(plan.outcome.objective)).toBeCloseTo(cost, 6);
    const best = bruteForce(cheapest, "cost", { grain: 20 });
    expect(best === "no plan" ? best : best.value.toNumber()).toBeCloseTo(cost, 9);
  });

  it("keep a ceiling on what the mixed dice costs", async () => {
    // 3.05 is over 10 x 0.30; dice of heads alone costs 2.50 a kilogram, 2.25 for the bake, and wastes 400 g.
    const capped: Scenario = {
      ...scenario,
      dishes: scenario.dishes.map((dish) =>
        dish.name === "bake" ? { ...dish, ceiling: money("0.30") } : dish,
      ),
    };
    const plan = await planOf(capped);
    expect(bought(plan)).toEqual(["2 marrow, untrimmed"]);
    const best = bruteForce(capped, "waste", { grain: 20 });
    expect(best === "no plan" ? best : best.value.toNumber()).toBe(400);
  });

  it("are two entries on the pages, with the parts named once", async () => {
    const html = new Map(
      renderPages(await planOf(scenario), scenario).map((page) => [
        page.slug,
        page.html.replace(/\s+/g, " "),
      ]),
    );
    expect(html.get("cutting")).toContain("1 head of marrow");
    expect(html.get("cutting")).toContain("1 marrow heart");
    expect(html.get("waste")?.match(/>\s*dice\s*</g)).toHaveLength(2);
    expect(html.get("parts")?.match(/>\s*marrow dice\s*</g)).toHaveLength(2);
  });
});
