import { afterAll, expect, it } from "vitest";
import { buildModel, Engines, solve } from "../../src/allocation/index.js";
import { Decimal, money, ONE } from "../../src/quantity/index.js";
import {
  breakdownOf,
  dishOf,
  g,
  itemOf,
  lineOf,
  partOf,
  scenarioOf,
  serviceOf,
} from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

const bought = (price: string, most: number) => ({
  price: money(price),
  taxRate: null,
  least: 1,
  most,
  deliveries: [0],
  orderBy: null,
});

/** Two forms of leek: one of each is enough for two tarts and a half batch more, and for three pies. */
const scenario = scenarioOf({
  aim: "cost",
  services: [
    serviceOf("dinner", 0, {
      covers: 3,
      courses: [{ name: "main", portions: 3, takeUp: ONE, leastDishes: null, mostDishes: 1 }],
      overage: ONE,
    }),
  ],
  items: [
    itemOf(
      "leek",
      320,
      "0.5",
      3,
      [breakdownOf("plain", 320, { "leek heart": 160, "leek leaf": 120, "leek peel": 40 })],
      { keepsDays: 1, buying: bought("0.5", 3) },
    ),
    itemOf(
      "trimmed leek",
      160,
      "0.3",
      2,
      [breakdownOf("plain", 160, { "leek heart": 120, "leek leaf": 20 })],
      {
        of: "leek",
        buying: bought("0.3", 2),
        orderUnit: { name: "head", size: ONE, weight: g(160) },
      },
    ),
  ],
  parts: [
    partOf("leek heart", "leek", "food", { keepsDays: 2 }),
    partOf("leek leaf", "leek", "food", { keepsDays: 1 }),
    partOf("leek peel", "leek", "inedible"),
  ],
  dishes: [
    dishOf("tart", 2, [lineOf([20, 40], ["leek leaf"])], {
      batch: { portions: 3, halves: true, vessel: "tray" },
    }),
    dishOf("pie", null, [lineOf(80, [{ part: "leek heart", rate: new Decimal("0.5") }, "leek leaf"])], {
      course: "main",
    }),
  ],
});

// HiGHS 1.15.1 has called the start itself optimal here, without any bound.
it("is solved to the end from a start that is far from the least", async () => {
  const plan = buildModel(scenario);
  const { cost, waste } = plan.objectives;
  const asked = { engines, engine: "highs", seconds: 20, gap: 1e-6 } as const;
  const first = await solve({ model: plan.model, objective: cost }, asked);
  if (!("point" in first)) throw new Error(first.kind);
  const held = { name: "cost held", tag: { family: "held" }, terms: cost.terms };
  const row = { ...held, lower: Number.NEGATIVE_INFINITY, upper: first.objective + 0.001 };
  const model = { ...plan.model, rows: [...plan.model.rows, row] };
  const alone = await solve({ model, objective: waste }, asked);
  const started = await solve({ model, objective: waste }, { ...asked, start: first.point });
  expect(alone).toMatchObject({ kind: "optimal" });
  expect(started).toMatchObject({ kind: "optimal", objective: "objective" in alone ? alone.objective : 0 });
});
