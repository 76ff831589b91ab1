import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planScenario } from "../../src/planning/index.js";
import { example, exampleText, rewritten, scenarioOf } from "../support/examples.js";

// Three cases invented and worked by hand; the arithmetic stands beside each.
const engines = new Engines();
afterAll(() => engines.close());

const plan = async (name: string) => (await planScenario(example(name), { engines, seconds: 20 })).plan;

describe("whole units force a mix", () => {
  it("cuts 2 squash in rings and 3 in dice: 10.50, 40 g wasted", async () => {
    // Four squash cannot do it; 2 x 4 rings = 8, 2 x 500 + 3 x 1080 = 4,240 g of dice, 21 x 200 = 4,200 g.
    const { cuts, weights, money } = await plan("whole-units");
    expect(cuts.map(({ breakdown, units }) => `${units} ${breakdown}`)).toEqual(["2 ring cut", "3 dice cut"]);
    expect(money.spent).toBe("10.50");
    // 7,000 = 5,160 + 40 + 1,700 + 100
    expect(weights).toMatchObject({
      purchased: "7000",
      inDishes: "5160",
      wastedFood: "40",
      inedible: "1700",
      losses: "100",
    });
  });
});

describe("no plan under the ceiling", () => {
  it("names at least the four smallest changes", async () => {
    // 24 x 170 g = 4,080 g = 16 x 255 g; 12.00 / 24 = 0.50, + 0.06 oil + 0.32 staples = 0.88 a plate.
    const { outcome, reasons } = await plan("no-plan");
    expect(outcome.kind).toBe("infeasible");
    expect(reasons.map(({ change }) => change)).toEqual(
      expect.arrayContaining([
        "ceiling of aubergine bake: 0.88",
        "price of aubergine: 0.705 / aubergine",
        "oil a portion of aubergine bake: 7.5 g",
        "aubergine flesh a portion of aubergine bake: 159 g",
        "other staples in aubergine bake: 0.29 a portion",
        "price of oil: 2.00 / kg",
      ]),
    );
  });

  it.each([
    ["ceiling: 0.85", "ceiling: 0.88", "ceiling: 0.87"],
    ["price: 0.75 / aubergine", "price: 0.705 / aubergine", "price: 0.706 / aubergine"],
    ["amount: 15 g,", "amount: 7.5 g,", "amount: 8 g,"],
    ["amount: 170 g", "amount: 159 g", "amount: 160 g"],
    ["other staples: 0.32", "other staples: 0.29", "other staples: 0.30"],
    ["price: 4.00 / kg", "price: 2.00 / kg", "price: 2.001 / kg"],
  ])("%s written as %s gives a plan, and as %s gives none", async (passage, works, fails) => {
    const text = exampleText("no-plan");
    const kinds = [];
    for (const instead of [works, fails]) {
      const { plan: changed } = await planScenario(scenarioOf(rewritten(text, passage, instead)), {
        engines,
        seconds: 20,
      });
      kinds.push(changed.outcome.kind);
    }
    expect(kinds).toEqual(["optimal", "infeasible"]);
  });

  it("counts 0.84765 a plate for portions of 159 g, from 15 aubergines", async () => {
    const text = rewritten(exampleText("no-plan"), "amount: 170 g", "amount: 159 g");
    const { plan: changed } = await planScenario(scenarioOf(text), { engines, seconds: 20 });
    expect(changed.purchases).toMatchObject([{ units: 15, cost: "11.25" }]);
    // 11.25 x 3,816 / 3,825 = 11.2235 (to the ten-thousandth), + 24 x 0.38 = 9.12
    expect(changed.dishes[0]?.cost).toBe("20.3435");
  });
});

describe("cooked weight and trim credit", () => {
  it("takes 12 birds at 76.80, the breast bearing 1.44 a plate", async () => {
    const { cuts, money, dishes, weights } = await plan("trim-credit");
    expect(cuts).toMatchObject([{ units: 12 }]);
    expect(money).toMatchObject({ spent: "76.80", inDishes: "74.80", closingStock: "2.00", wasted: "0.00" });
    // 76.80 - 25.92 legs - 5.76 wings - 2.00 carcass = 43.12 for 30 plates.
    expect(dishes.map(({ dish, cost, costPerPortion }) => [dish, cost, costPerPortion])).toEqual([
      ["roast breast", "43.12", "1.4373"],
      ["leg salad", "25.92", "0.9969"],
      ["glazed wings", "5.76", "0.4800"],
    ]);
    // 19,200 + 4,000 absorbed = 9,264 + 4,000 + 7,392 + 2,544
    expect(weights).toMatchObject({
      purchased: "19200",
      absorbed: "4000",
      inDishes: "9264",
      closingStock: "4000",
      inedible: "7392",
      losses: "2544",
      wastedFood: "0",
    });
  });
});
