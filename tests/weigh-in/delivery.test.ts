import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planScenario } from "../../src/planning/index.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { happenedBy, weighedFile } from "../support/weighing.js";

const engines = new Engines();
afterAll(() => engines.close());

const item = (name: string, price: string) =>
  `  ${name}: {form: test, price: "${price}", supplier: Green Lane, unit_weight: 1000 g, breakdowns: {dice: {parts: {dice: 1000 g}}}}`;
const scenario = scenarioOf(`scenario: Two by one van
currency: EUR
aim: cost
services: [{name: Lunch, date: 2026-10-08}]
suppliers: {Green Lane: {delivery: 6.50}}
items:
${item("gourd", "2.00 / head; from 8: 1.50 / head")}
${item("marrow", "3.00 / head")}
parts: {gourd dice: {food_by: test}, marrow dice: {food_by: test}}
dishes:
  bake: {portions: 10, lines: [{amount: 300 to 500 g, from: gourd dice}, {amount: 100 g, from: marrow dice}]}
`);
const { plan } = await planScenario(scenario, { engines, seconds: 10 });

/** What happened, where rows are weighed so: ten-thousandths, milligrams, and thousandths of what is counted. */
function happened(actual: Readonly<Record<string, bigint>>) {
  const text = weighedFile(plan, scenario, ({ what, name, measure }) => {
    const key = `${what} ${name} ${measure}`;
    return actual[key] ?? null;
  });
  const found = happenedBy(plan, scenario, text);
  if (Array.isArray(found)) throw new Error(found.join("\n"));
  expectBalanced(found.plan);
  return found.plan;
}

describe("the charge of a delivery, weighed in", () => {
  it("was shared by cost: 6.00 of gourd and 3.00 of marrow", () => {
    expect(plan.purchases.map(({ item: name, cost, delivery }) => [name, cost, delivery])).toEqual([
      ["gourd", "6.00", "4.3333"],
      ["marrow", "3.00", "2.1667"],
    ]);
  });

  it("is as planned where nothing is weighed", () => {
    const found = happened({});
    expect(found.purchases).toEqual(plan.purchases);
    expect(found.money).toEqual(plan.money);
  });

  it("is paid whole, and shared by what was paid, where one came short of its bill", () => {
    const found = happened({ "bought gourd cost": 30_000n });
    expect(found.purchases.map(({ cost, delivery }) => [cost, delivery])).toEqual([
      ["3.00", "3.25"],
      ["3.00", "3.25"],
    ]);
    expect(found.money.spent).toBe("12.50");
  });

  it("costs the lower price where so many came that it is reached", () => {
    const came = (units: bigint) =>
      happened({
        "bought gourd count": units * 1000n,
        "bought gourd weight": units * 1_000_000n,
        "cut gourd count": units * 1000n,
        "cut gourd weight": units * 1_000_000n,
      });
    expect(came(8n).purchases[0]).toMatchObject({ units: 8, cost: "12.00" });
    expect(came(7n).purchases[0]).toMatchObject({ units: 7, cost: "14.00" });
  });
});
