import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { Decimal, grams, money, toGrams } from "../../src/quantity/index.js";
import {
  breakdownOf,
  dishOf,
  itemOf,
  lineOf,
  partOf,
  scenarioOf,
  serviceOf,
} from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

/**
 * A head of 260 g at 0.26, the second one free, of which a ceiling row so charges nothing. Two tarts take 80 g of leaf
 * and 120 g of heart, and a gram of heart may stand for half a gram of leaf: most is used where the whole heart is, 140
 * and 70 g, so that 50 g are wasted.
 */
const tarts = (ceiling: string) =>
  scenarioOf({
    services: [serviceOf("lunch", 0)],
    items: [
      itemOf("leek", 260, "0.26", 4, [breakdownOf("plain", 260, { heart: 140, leaf: 120 })], {
        keepsDays: 1,
        buying: {
          price: money("0.26"),
          breaks: [{ from: 2, price: money("0.00") }],
          taxRate: null,
          least: 0,
          most: 4,
          deliveries: [0],
          orderBy: null,
        },
      }),
    ],
    parts: [partOf("heart", "leek"), partOf("leaf", "leek")],
    dishes: [
      dishOf(
        "tart",
        2,
        [lineOf(40, ["leaf", { part: "heart", rate: new Decimal("0.5") }]), lineOf(60, ["heart"])],
        { ceiling: money(ceiling) },
      ),
    ],
  });

describe("a plan that rounding alone puts over a ceiling", () => {
  // 210 g at 0.001 a gram are 0.105 a portion, and so many grams as the ceiling allows leave the rest to waste.
  it.each([
    ["0.105", 50],
    ["0.1045", 51],
    ["0.1042", 52],
    ["0.104", 52],
  ])("is changed by no more than it takes: ceiling %s", async (ceiling, waste) => {
    const settled = await planWithinCeilings(tarts(ceiling), (model) =>
      solveStages(model, { engines, seconds: 10 }),
    );
    if (settled.kind === "none") throw new Error("there is no plan");
    expect(toGrams(settled.ledger.weights.wastedFood).toNumber()).toBe(waste);
    expect(settled.ledger.weights.inDishes).toBe(grams(String(260 - waste)));
  });
});
