import { afterAll, describe, expect, it } from "vitest";
import { Engines, leastLotCosts, solveStages, verifyDecision } from "../../src/allocation/index.js";
import { composePlan, decisionOf, type PlanJson, planSchema } from "../../src/contract/index.js";
import { type Aim, priceAt, type Scenario, tiersOf } from "../../src/kitchen/index.js";
import { keepLedger } from "../../src/ledger/index.js";
import { shoppingData } from "../../src/pages/shopping.js";
import { viewOf } from "../../src/pages/view.js";
import { planScenario } from "../../src/planning/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { money, tenThousandths } from "../../src/quantity/index.js";
import { applyChanges } from "../support/apply-change.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { problemsOf } from "../support/resolving.js";

const engines = new Engines();
afterAll(() => engines.close());

/** Invented. A marrow of 1 kg gives two portions of 400 g. */
const marrows = ({
  price = '"2.00 / head"',
  portions = 20,
  more = "",
  top = "",
  ceiling = "",
  aim = "cost",
} = {}): string => `scenario: Marrows
currency: EUR
aim: ${aim}
services: [{name: Lunch, date: 2026-10-08}]
${top}
items:
  marrow:
    form: test
    price: ${price}
    supplier: Green Lane
    unit_weight: 1000 g
    breakdowns: {dice: {parts: {dice: 800 g, peel: {weight: 200 g, class: inedible}}}}
    ${more}
dishes:
  bake: {portions: ${portions}, ${ceiling} lines: [{amount: 400 g, from: marrow dice}]}
`;

async function planned(text: string, aim?: Aim, kind = "optimal"): Promise<PlanJson> {
  const scenario = scenarioOf(text);
  const { plan } = await planScenario(scenario, { engines, seconds: 10, ...(aim && { aim }) });
  expect(plan.outcome.kind).toBe(kind);
  expectBalanced(plan);
  expect(planSchema.parse(plan)).toEqual(plan);
  const decision = decisionOf(plan, scenario);
  expect(verifyDecision(decision, scenario)).toEqual([]);
  const again = composePlan(scenario, decision, keepLedger(scenario, decision), {
    outcome: { kind: "infeasible", engine: "highs", seconds: 0 },
    stages: [],
    warnings: [],
    reasons: [],
  });
  expect(again.transfers).toEqual(plan.transfers);
  return plan;
}

/** Marrows that are not good for longer. */
const FOR_THE_DAY = "keeps: 1 day";

const bought = ({ purchases }: PlanJson) => purchases.map(({ units, cost }) => [units, Number(cost)]);

describe("a price that falls with the number bought", () => {
  const DOZEN = '"2.00 / head; from 12: 1.50 / head"';

  it("holds for all units: twelve at 1.50 are cheaper than the ten that are needed, at 2.00", async () => {
    expect(bought(await planned(marrows({ price: DOZEN })))).toEqual([[12, 18]]);
  });

  it("does not for fewer, and eight at 2.00 are cheaper than twelve", async () => {
    expect(bought(await planned(marrows({ price: DOZEN, portions: 16 })))).toEqual([[8, 16]]);
  });

  it("is paid where the other aim buys no more than is needed", async () => {
    expect(bought(await planned(marrows({ price: DOZEN, more: FOR_THE_DAY }), "waste"))).toEqual([[10, 20]]);
    // What keeps is no waste, but stock.
    expect(bought(await planned(marrows({ price: DOZEN }), "waste"))).toEqual([[12, 18]]);
    expect(bought(await planned(marrows({ price: DOZEN, portions: 26 }), "waste"))).toEqual([[13, 19.5]]);
  });

  it("has several steps, of which the right one is paid", async () => {
    // Nine at 1.80 are 16.20; 10 at 1.60 are 16.00; 30 at 0.50 are 15.00.
    const price = '"2.00 / head; from 9: 1.80 each; from 10: 1.60 each; from 30: 0.50 each"';
    expect(bought(await planned(marrows({ price, portions: 18 })))).toEqual([[30, 15]]);
    expect(bought(await planned(marrows({ price, portions: 18, more: "buy: 0 to 29" })))).toEqual([[10, 16]]);
  });

  it("counts each delivery for itself", async () => {
    const text = marrows({
      price: DOZEN,
      more: "keeps: 1 day\n    deliveries: [2026-10-08, 2026-10-09]",
    })
      .replace("{name: Lunch, date: 2026-10-08}", "{name: A, date: 2026-10-08}, {name: B, date: 2026-10-09}")
      .replace("bake: {portions: 20", "bake: {portions: 14, services: [A, B]");
    // Seven a day, fourteen in all: no delivery has twelve, and twelve a day cost more.
    expect(bought(await planned(text))).toEqual([
      [7, 14],
      [7, 14],
    ]);
  });

  it("goes by cases and steps of weight as they are ordered", async () => {
    const cases = '"12.00 / case of 6; from 2: 9.00 / case of 6"';
    expect(bought(await planned(marrows({ price: cases })))).toEqual([[2, 18]]);
    const byWeight = '"2.00 / kg; from 12: 1.50 / kg"';
    expect(bought(await planned(marrows({ price: byWeight })))).toEqual([[12, 18]]);
  });

  it("leaves ceiling rows a true least: at the lowest price within reach", () => {
    const dice = { part: "marrow dice", origin: { kind: "cut", service: 0 } } as const;
    const least = (text: string) => leastLotCosts(scenarioOf(text))(dice);
    expect(least(marrows({ price: DOZEN }))).toBeCloseTo(1.5 / 0.8, 12);
    expect(least(marrows({ price: DOZEN, more: "buy: 0 to 11" }))).toBeCloseTo(2 / 0.8, 12);
  });

  it("makes a ceiling possible that the price of a few does not", async () => {
    // At 2.00 a portion costs 1.00; at 1.50, bought or not what is not needed, 0.75.
    const text = marrows({ price: DOZEN, ceiling: "ceiling: 0.80,", aim: "waste", more: FOR_THE_DAY });
    // Of less waste, only what a dozen's price would allow is known.
    const plan = await planned(text, "waste", "feasible");
    expect(bought(plan)).toEqual([[12, 18]]);
    expect(Number(plan.dishes[0]?.costPerPortion)).toBe(0.75);
  });

  it("is known by the number, to the unit", () => {
    const { buying } = scenarioOf(marrows({ price: DOZEN })).items[0] ?? {};
    if (buying === null || buying === undefined) throw new Error("not bought");
    expect([1, 11, 12, 40].map((units) => priceAt(buying, units))).toEqual(
      ["2", "2", "1.5", "1.5"].map((price) => money(price)),
    );
    expect(tiersOf({ ...buying, most: 11 })).toEqual([{ least: 1, most: 11, price: money("2") }]);
  });

  it("is refused where it cannot be read, each with what to write", () => {
    const problem = (price: string) => problemsOf(marrows({ price: `"${price}"` }));
    const at = "t.yaml:9:12";
    expect(problem("2.00 / head; 1.50 from 12")).toEqual([
      `${at}: \`1.50 from 12\` is not a price from some number on. Write the number and the price from it on, such as \`1.10 each; from 24: 0.95 each\``,
    ]);
    expect(problem("2.00 / head; from 12: 2.00 / head")).toEqual([
      `${at}: the price from 12 on, 2.00, is not below the 2.00 before it. Write the lower prices of larger orders only`,
    ]);
    expect(problem("2.00 / head; from 12: 1.50 / head; from 6: 1.00 / head")).toEqual([
      `${at}: a price from 6 on follows one from 12 on. Write the prices in the order of their numbers, the first from 2 on or later`,
    ]);
    expect(problem("2.00 / head; from 1: 1.50 / head")[0]).toContain("follows one for a single unit");
    expect(problem("2.00 / head; from 1.5: 1.50 / head")[0]).toContain("`1.5` is not a whole number");
    expect(problem("2.00 / head; from 2: 9.00 / case of 6")).toEqual([
      `${at}: the price from 2 on is for a case of 6, and what is ordered is a head. Write it for a head, or the other unit as an item of its own with \`of:\``,
    ]);
    expect(problemsOf(marrows({ price: "2.00 / head; from 12: 1.50 / head" }))[0]).toContain(
      "quotes around a text that holds `: `",
    );
  });
});

describe("what a supplier asks for an order", () => {
  const terms = (text: string) => `suppliers: {Green Lane: {${text}}}`;
  const item = (name: string, price = "1.00") =>
    `  ${name}: {form: test, price: ${price} / head, supplier: Green Lane, unit_weight: 1000 g, breakdowns: {whole: {parts: {flesh: 1000 g}}}}`;

  it("is bought for, and what is not needed goes to waste", async () => {
    const asked = { top: terms("minimum: 24.00"), aim: "waste" } as const;
    const plan = await planned(marrows({ ...asked, more: FOR_THE_DAY }));
    expect(bought(plan)).toEqual([[12, 24]]);
    expect(plan.weights.wastedFood).toBe("1600");
  });

  it("leaves in stock what is not needed and keeps", async () => {
    const plan = await planned(marrows({ top: terms("minimum: 24.00"), aim: "waste" }));
    expect(bought(plan)).toEqual([[12, 24]]);
    expect([plan.weights.wastedFood, plan.money.closingStock]).toEqual(["0", "4.00"]);
  });

  it("is paid on top, and is part of what a plate costs", async () => {
    const plan = await planned(marrows({ top: terms("delivery: 6.50") }));
    expect(plan.purchases).toMatchObject([{ units: 10, cost: "20.00", delivery: "6.50" }]);
    expect(plan.money.spent).toBe("26.50");
    expect(plan.dishes[0]?.costPerPortion).toBe("1.3250");
    expect(Number(plan.outcome.objective)).toBe(26.5);
  });

  it("is spread over more than is needed, where a ceiling asks for that", async () => {
    // One for two portions and the charge are 3.00, a portion 1.50; of four, 9.00 / 4 / 2 = 1.125; of three, 1.1667.
    const spread = marrows({ portions: 2, top: terms("delivery: 1.00"), ceiling: "ceiling: 1.13," });
    const plan = await planned(spread, "cost", "feasible");
    expect(bought(plan)).toEqual([[4, 8]]);
    expect([plan.dishes[0]?.costPerPortion, plan.money.spent]).toEqual(["1.1250", "9.00"]);
  });

  it("is spread as thinly where more might be bought", async () => {
    // Two portions of 1 kg may cost 8.40 each. Two heads and the charge are 10.00 each, three 25.00 / 3 = 8.33.
    const spread = (most: number) =>
      marrows({
        portions: 2,
        top: terms("delivery: 10.00"),
        ceiling: "ceiling: 8.40,",
        price: '"5.00 / head"',
        more: `buy: 0 to ${most}`,
      })
        .replace("dice: 800 g, peel: {weight: 200 g, class: inedible}", "dice: 1000 g")
        .replace("400 g, from", "1000 g, from");
    for (const most of [12, 60, 1000])
      expect((await planned(spread(most), "cost", "feasible")).money.spent).toBe("25.00");
  });

  it("is not borne by what is free, however much of it may be had", async () => {
    const free = `  beet: {form: test, price: 0.00 / head, supplier: Green Lane, unit_weight: 100 g, buy: 0 to 100, breakdowns: {whole: {parts: {leaf: 100 g}}}}`;
    const text = `scenario: Free beside
currency: EUR
aim: cost
services: [{name: Lunch, date: 2026-10-08}]
${terms("delivery: 10.00")}
items:
${item("turnip", "5.00")}
${item("carrot", "5.00")}
${free}
parts: {beet leaf: {food_by: test}}
dishes:
  tart: {portions: 2, ceiling: 7.30, lines: [{amount: 1000 g, from: turnip flesh}]}
  pie: {portions: 2, lines: [{amount: 1000 g, from: carrot flesh}]}
`;
    // Four are 20.00 and 10.00, 7.50 each; five 7.00, and that for 35.00.
    expect((await planned(text, "cost", "feasible")).money.spent).toBe("35.00");
  });

  it("is spread over whatever comes with it, where a ceiling asks for that", async () => {
    const text = `scenario: Two
currency: EUR
aim: cost
services: [{name: Lunch, date: 2026-10-08}]
${terms("delivery: 1.00")}
items:
${item("turnip")}
${item("carrot", "0.50")}
dishes:
  tart: {portions: 1, ceiling: 1.30, lines: [{amount: 1000 g, from: turnip flesh}]}
  pie: {portions: 1, lines: [{amount: 1000 g, from: carrot flesh}]}
`;
    // A turnip bears 1.00 x (1 + 1.00 / order): 1.30 asks for an order of 3.50, whose charge makes it 1.2857.
    const plan = await planned(text, "cost", "feasible");
    expect([plan.money.spent, plan.dishes.find(({ dish }) => dish === "tart")?.costPerPortion]).toEqual([
      "4.50",
      "1.2857",
    ]);
  });

  it("is not asked where nothing is ordered", async () => {
    const held = marrows({
      top: terms("minimum: 24.00, delivery: 6.50"),
      more: "on_hand: {amount: 10 head, value: 3.00, use_by: 2026-10-09}",
    });
    const plan = await planned(held);
    expect(plan.purchases).toEqual([]);
    expect(plan.money.spent).toBe("0.00");
  });

  it("is shared by cost to the last unit among what comes with it", async () => {
    const names = ["ash", "beech", "cedar"];
    const text = `scenario: Three
currency: EUR
aim: cost
services: [{name: Lunch, date: 2026-10-08}]
${terms("delivery: 0.10")}
items:
${names.map((name) => item(name)).join("\n")}
parts: {${names.map((name) => `${name} flesh: {food_by: test}`).join(", ")}}
dishes:
  all: {portions: 1, lines: [${names.map((name) => `{amount: 1000 g, from: ${name} flesh}`).join(", ")}]}
`;
    const plan = await planned(text);
    expect(plan.purchases.map(({ delivery }) => delivery)).toEqual(["0.0334", "0.0333", "0.0333"]);
    expect(plan.dishes[0]).toMatchObject({ cost: "3.10" });
  });

  it("makes an order elsewhere cheaper than the delivery", async () => {
    const market = `  market marrow: {of: marrow, form: test, price: 2.50 / head, supplier: Market, unit_weight: 1000 g, breakdowns: {dice: {parts: {dice: 800 g, peel: {weight: 200 g, class: inedible}}}}}\ndishes:`;
    const text = (charge: string) =>
      marrows({ top: terms(`delivery: ${charge}`) }).replace("dishes:", market);
    // Ten cost 5.00 more at the market.
    expect((await planned(text("4.90"))).purchases).toMatchObject([{ item: "marrow", units: 10 }]);
    expect((await planned(text("5.10"))).purchases).toMatchObject([{ item: "market marrow", units: 10 }]);
  });

  it("is on the shopping list", async () => {
    const text = marrows({
      price: '"2.00 / head; from 12: 1.50 / head"',
      top: terms("minimum: 15.00, delivery: 6.50"),
      portions: 16,
    });
    const plan = await planned(text);
    const data = shoppingData(viewOf(plan, scenarioOf(text)));
    expect(data.deliveries[0]).toMatchObject({
      supplier: "Green Lane",
      minimum: "Least order €15.00; goods here €16.00",
      delivery: ["€6.50"],
      cost: "€22.50",
      lines: [{ price: "€2.00 a head; €1.50 from 12 on", cost: "€16.00" }],
    });
    expect(data.spent).toBe("€22.50");
  });

  it("must be asked by a supplier that some item names, spelt alike", () => {
    expect(problemsOf(marrows({ top: "suppliers: {Green Lan: {minimum: 4.00}}" }))).toEqual([
      "t.yaml:5:13: no item is bought from a supplier `Green Lan`. Did you mean `Green Lane`?",
    ]);
    expect(problemsOf(marrows({ top: "suppliers: {Harbour: {minimum: 4.00}}" }))).toEqual([
      "t.yaml:5:13: no item is bought from a supplier `Harbour`. Write one that items name: `Green Lane`",
    ]);
    const two = marrows({ top: terms("minimum: 4.00") }).replace(
      "dishes:",
      "  gourd: {form: test, price: 2.00 / head, supplier: Green Lance, unit_weight: 1 kg, breakdowns: {dice: {parts: {dice: 1 kg}}}}\ndishes:",
    );
    expect(problemsOf(two)).toEqual([
      "t.yaml:14:53: `Green Lance` is not among the `suppliers:` at the top, and comes near one that is. Did you mean `Green Lane`? If it is another, add `Green Lance: {}` there",
    ]);
    expect(problemsOf(two.replace("{Green Lane:", "{Green Lance: {}, Green Lane:"))).toEqual([]);
    expect(problemsOf(marrows({ top: terms("minimum: -4") }))[0]).toContain(
      "t.yaml:5:35: `-4` is below zero",
    );
  });
});

describe("where there is no plan, because of what a supplier asks", () => {
  const asked = async (text: string) => {
    const scenario = scenarioOf(text);
    const { plan } = await planScenario(scenario, { engines, seconds: 20 });
    expect(plan.outcome.kind).toBe("infeasible");
    return { scenario, changes: plan.reasons.map(({ change }) => change) };
  };
  const kind = async (scenario: Scenario) =>
    (await planScenario(scenario, { engines, seconds: 10 })).plan.outcome.kind;

  it("says which least order would do, and how many more", async () => {
    const text = marrows({ top: "suppliers: {Green Lane: {minimum: 24.00}}", more: "buy: 0 to 11" });
    const { scenario, changes } = await asked(text);
    expect(changes).toContain("least order of Green Lane: 22.00");
    expect(changes).toContain("most marrow to buy: 12 x head");
    expect(await kind(applyChanges(scenario, "least order of Green Lane: 22.00"))).toBe("optimal");
    expect(await kind(applyChanges(scenario, "least order of Green Lane: 22.01"))).toBe("infeasible");
  });

  it("says which charge would keep to a ceiling", async () => {
    // Ten at 2.00 and 6.50 for the delivery are 1.325 a portion; at 6.00 it is 1.30.
    const text = marrows({
      top: "suppliers: {Green Lane: {delivery: 6.50}}",
      more: "buy: 0 to 10",
      ceiling: "ceiling: 1.30,",
    });
    const { scenario, changes } = await asked(text);
    expect(changes).toContain("delivery charge of Green Lane: 6.00");
    expect(await kind(applyChanges(scenario, "delivery charge of Green Lane: 6.00"))).toBe("optimal");
    expect(await kind(applyChanges(scenario, "delivery charge of Green Lane: 6.01"))).toBe("infeasible");
  });
});

describe("the check of a plan's purchases", () => {
  it("finds a wrong price, a short order, and a charge that is missing, too high or shared wrongly", async () => {
    const text = marrows({
      price: '"2.00 / head; from 12: 1.50 / head"',
      top: "suppliers: {Green Lane: {minimum: 16.00, delivery: 6.50}}",
    });
    const scenario = scenarioOf(text);
    const decision = decisionOf(await planned(text), scenario);
    const [purchase] = decision.purchases;
    if (purchase === undefined) throw new Error("nothing is bought");
    const faults = (changed: object, under = scenario) =>
      verifyDecision({ ...decision, purchases: [{ ...purchase, ...changed }] }, under);
    expect(faults({})).toEqual([]);
    expect(faults({ cost: money("24.00") })).toEqual(["marrow: its price is not 12 times its own"]);
    expect(faults({ cost: money("17.9999") })).toHaveLength(1);
    const { delivery: _, ...free } = purchase;
    expect(verifyDecision({ ...decision, purchases: [free] }, scenario)[0]).toBe(
      "Green Lane for Lunch: 0 charged for delivery, not 6.5",
    );
    expect(faults({ delivery: money("6.5001") })[0]).toContain("6.5001 charged for delivery");
    const dearer = applyChanges(scenario, "least order of Green Lane: 18.01");
    expect(faults({}, dearer)).toEqual(["Green Lane for Lunch: 0.01 short of its least order"]);
    const { suppliers: __, ...unasked } = scenario;
    expect(faults({}, unasked)).toEqual(["marrow for Lunch: charged a delivery that nobody charges"]);
    expect(faults({ delivery: tenThousandths(65001n) }, unasked)).toHaveLength(1);
  });
});

describe("the money of purchases", () => {
  it("is what the model counts", async () => {
    const text = marrows({
      price: '"2.00 / head; from 12: 1.50 / head"',
      top: "suppliers: {Green Lane: {minimum: 30.00, delivery: 6.50}}",
    });
    const settled = await planWithinCeilings(scenarioOf(text), (model) =>
      solveStages(model, { engines, seconds: 10 }),
    );
    if (settled.kind !== "plan") throw new Error("no plan");
    // Twenty at 1.50, and the delivery.
    expect(settled.first.objective).toBeCloseTo(36.5, 9);
    expect(settled.ledger.money.spent).toBe(money("36.5"));
  });
});
