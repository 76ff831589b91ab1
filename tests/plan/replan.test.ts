import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { PlanJson } from "../../src/contract/index.js";
import { changesBetween } from "../../src/insight/index.js";
import { replanPage, replanText, writingFor } from "../../src/pages/index.js";
import { planScenario } from "../../src/plan.js";
import { problemText } from "../../src/reading/index.js";
import { replan } from "../../src/replan.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";

const engines = new Engines();
afterAll(() => engines.close());

/** Invented. Ten marrows cut on Thursday give 4 kg of ring, for Thursday, and 4 kg of dice, for Friday. */
const scenario = scenarioOf(`scenario: Two evenings
currency: EUR
services:
  - {name: Thursday, date: 2026-10-08, sitting: dinner, covers: 20}
  - {name: Friday, date: 2026-10-09, sitting: dinner, covers: 20, courses: {main: 100 %}}
items:
  marrow:
    form: test
    price: 2.00 / head
    unit_weight: 1000 g
    keeps: 5 days
    cut: [rings]
    breakdowns:
      rings: {parts: {ring: 400 g, dice: 400 g, peel: {weight: 150 g, class: inedible}}, loss: 50 g}
parts:
  marrow ring: {keeps: 3 days}
  marrow dice: {keeps: 3 days}
dishes:
  ring plate: {services: Thursday, portions: 20, lines: [{amount: 200 g, from: marrow ring}]}
  dice pot:
    course: main
    services: Friday
    lines: [{amount: 150 to 200 g, from: marrow dice}]
    staples: {bread: 0.10}
`);
const { plan: kept } = await planScenario(scenario, { engines, seconds: 10 });

const onTheDay = async (text: string) =>
  replan({ plan: kept, file: "k.plan.json" }, scenario, { file: "h.yaml", text }, { engines, seconds: 10 });

async function replanned(text: string): Promise<PlanJson> {
  const { replanned: found, problems } = await onTheDay(text);
  expect(problems.map(problemText)).toEqual([]);
  if (found === null || found.plan === null) throw new Error("no plan");
  expectBalanced(found.plan);
  return found.plan;
}

const dicePot = (plan: PlanJson) => plan.dishes.find(({ dish }) => dish === "dice pot");

describe("planning again on the day", () => {
  it("was planned with ten marrows, all used", () => {
    expect(kept.purchases).toMatchObject([{ units: 10 }]);
    expect(dicePot(kept)).toMatchObject({ portions: 20 });
  });

  it("changes nothing where nothing happened", async () => {
    const plan = await replanned("before: Friday\n");
    expect(changesBetween(kept, plan, scenario)).toEqual([]);
    expect(plan.money).toEqual(kept.money);
    expect(plan.weights).toEqual(kept.weights);
  });

  it("makes do with what came out lighter, and keeps what was done", async () => {
    const plan = await replanned("before: Friday\ncut: {Thursday: {marrow dice: 3.2 kg}}\n");
    expect(plan.purchases).toEqual(kept.purchases);
    expect(plan.dishes.find(({ dish }) => dish === "ring plate")).toMatchObject({ portions: 20, eaten: 20 });
    // 20 portions of 150 to 200 g: 160 g each of what there is.
    expect(plan.goings.filter(({ dish }) => dish === "dice pot").map(({ weight }) => Number(weight))).toEqual(
      [3200],
    );
    expect(plan.cuts[0]).toMatchObject({ units: 10, loss: "1300" });
  });

  it("buys more where more can be bought, for the covers that come now", async () => {
    const plan = await replanned("before: Friday\ncovers: {Friday: 30}\ncan_buy: marrow\n");
    // 30 portions of 150 g at least are 4.5 kg: 500 g more, of one marrow's dice and of its rings, diced.
    expect(plan.purchases).toMatchObject([
      { units: 10, service: "Thursday" },
      { units: 1, service: "Friday" },
    ]);
    expect(dicePot(plan)).toMatchObject({ portions: 30 });
    expect(plan.money.spent).toBe("25.00");
  });

  it("says that it can't be done where nothing more can be had", async () => {
    const { replanned: found } = await onTheDay("before: Friday\ncovers: {Friday: 30}\n");
    expect(found?.plan).toBeNull();
    expect(found?.rest.plan.outcome.kind).toBe("infeasible");
    expect(found?.rest.plan.reasons.length).toBeGreaterThan(0);
  });

  it("plans everything anew on a short delivery before anything is cut", async () => {
    // Nine marrows give 3.6 kg of ring: twenty plates of 200 g can't be.
    const { replanned: short } = await onTheDay("before: Thursday\ndelivered: {marrow: 9}\n");
    expect(short?.plan).toBeNull();
    const plan = await replanned("before: Thursday\ndelivered: {marrow: 11}\n");
    expect(plan.purchases).toMatchObject([{ units: 11, cost: "22.00" }]);
  });

  it("names every problem at once, each at its place", async () => {
    const { problems } = await onTheDay(`before: Friday
delivered: {marow: 3, marrow: 5}
cut:
  Thursday: {marrow dicee: 1 kg, marrow ring: 3 kg}
  Friday: {marrow dice: 1 kg}
covers: {Thursday: 3}
can_buy: [marro]
`);
    expect(problems.map(problemText)).toEqual([
      "h.yaml:2:13: the plan has no item `marow`. Did you mean `marrow`?",
      "h.yaml:2:23: 10000 g of `marrow` were cut before that service, and only 5000 g were there. Count the heads again, or write an earlier service under `before:`",
      "h.yaml:4:14: the plan has no part cut then `marrow dicee`. Did you mean `marrow dice`?",
      "h.yaml:4:34: the dishes and steps that are done took 1000 g more of `marrow ring` than came out. Weigh again, or write an earlier service under `before:`",
      "h.yaml:5:3: nothing is cut for `Friday` yet, which is still to be planned. Name the service that it was cut for, or write a later one under `before:`",
      "h.yaml:6:10: `Thursday` is over: its covers are as they were. Leave it out, or write an earlier service under `before:`",
      "h.yaml:7:11: the plan has no item `marro`. Did you mean `marrow`?",
    ]);
    const formless = await onTheDay("befor: Friday\ncut: 3\n");
    expect(formless.problems.map(problemText)).toHaveLength(3);
  });

  it("prints what changes on a page", () => {
    const text = replanText(
      kept,
      kept,
      ["Buy 2 heads of marrow, 2 more"],
      { from: "Friday", overCeiling: ["dice pot"], covers: ["Friday 30"] },
      writingFor(scenario),
    );
    const { html } = replanPage(text, scenario);
    expect(html).toContain("Buy 2 heads of marrow, 2 more");
    expect(html).toContain("What changes from Friday on");
    expect(html).toContain("Write the new covers in the scenario too: Friday 30.");
    expect(html).toContain("Above its ceiling by what went before: dice pot.");
  });
});
