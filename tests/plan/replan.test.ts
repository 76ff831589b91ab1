import { afterAll, describe, expect, it } from "vitest";
import { Engines, verifyAnew } from "../../src/allocation/index.js";
import { decisionOf, type PlanJson } from "../../src/contract/index.js";
import { changesBetween } from "../../src/insight/changes.js";
import { changesFrom, pastOf, restOf } from "../../src/insight/index.js";
import { replanPage, replanText, writingFor } from "../../src/pages/index.js";
import { planScenario, replan } from "../../src/planning/index.js";
import { Decimal } from "../../src/quantity/index.js";
import { problemText } from "../../src/reading/index.js";
import { lastDayOfLot } from "../../src/safety/index.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { TWO_EVENINGS, WAITING_POT } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

const scenario = scenarioOf(TWO_EVENINGS);
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
    const { goings } = changesFrom(1, kept, plan, scenario);
    expect(goings.map(({ before, after }) => [Number(before), Number(after)])).toEqual([[4000, 3200]]);
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

  it("bins whole items that kept no longer, and does not cut them on a later day", async () => {
    const fresh = scenarioOf(TWO_EVENINGS.replace("keeps: 5 days", "keeps: 1 day"));
    const { plan: made } = await planScenario(fresh, { engines, seconds: 10 });
    const source = { file: "h.yaml", text: "before: Friday\ndelivered: {marrow: 12}\n" };
    const { replanned: found } = await replan({ plan: made, file: "k" }, fresh, source, {
      engines,
      seconds: 10,
    });
    if (found?.plan == null) throw new Error("no plan");
    expectBalanced(found.plan);
    // Two marrows too many came on Thursday, their only day: 1,600 g of their parts are food, 400 g peel and juice.
    expect(found.plan.cuts.map(({ units, service }) => [units, service])).toEqual([[10, "Thursday"]]);
    expect(Number(found.plan.weights.wastedFood) - Number(made.weights.wastedFood)).toBe(1600);
  });

  it("gives what a step makes of a part the date it has from the day it was cut", async () => {
    const text = TWO_EVENINGS.replace(
      "marrow dice: {keeps: 3 days}",
      "marrow dice: {keeps: 3 days}\n  marrow cube: {keeps: 1 day}",
    )
      .replace("from: marrow dice}", "from: [marrow dice, marrow cube]}")
      .replace("dishes:", "steps: {cube it: {from: marrow dice, gives: {marrow cube: 100 %}}}\ndishes:");
    const stepped = scenarioOf(text);
    const { plan: made } = await planScenario(stepped, { engines, seconds: 10 });
    const past = pastOf(decisionOf(made, stepped), stepped, { before: "Friday" }, () => undefined);
    if (past === null) throw new Error("no past");
    const rest = restOf(past, stepped, []);
    const index = rest.partsOnHand.findIndex(({ part }) => part === "marrow dice");
    const origin = { kind: "onHand", index } as const;
    // Thursday's dice keep to Saturday; a cube of them kept to Thursday, the day before the rest begins.
    expect(lastDayOfLot({ part: "marrow dice", origin }, rest)).toBe(1);
    expect(lastDayOfLot({ part: "marrow cube", origin }, rest)).toBe(-1);
  });

  it("is checked with what was done: nothing may be used after its date, twice, or for fewer portions", async () => {
    const plan = await replanned("before: Friday\ncut: {Thursday: {marrow dice: 3.2 kg}}\n");
    const whole = decisionOf(plan, scenario);
    expect(verifyAnew(whole, scenario, 1)).toEqual([]);
    const [going] = whole.goings.filter(({ dish }) => dish === "dice pot");
    if (going === undefined) throw new Error("no going");
    expect(verifyAnew({ ...whole, goings: [...whole.goings, going] }, scenario, 1)).toContainEqual(
      expect.stringContaining("3200 g unaccounted for"),
    );
    const cookings = whole.cookings.filter(({ dish }) => dish !== "dice pot");
    expect(verifyAnew({ ...whole, cookings }, scenario, 1)).toContain("main at Friday: 0 of 20 portions");
    const stale = { ...scenario, parts: scenario.parts.map((part) => ({ ...part, keepsDays: 1 })) };
    expect(verifyAnew(whole, stale, 1)).toContain("marrow dice goes into dice pot 1 days after its last");
  });

  it("counts what was cooked before towards the courses and diets it waits for", async () => {
    const waiting = scenarioOf(WAITING_POT);
    const { plan: made } = await planScenario(waiting, { engines, seconds: 10 });
    const portions = async (covers: number) => {
      const text = `before: Friday\ncovers: {Friday: ${covers}}\ncan_buy: marrow\n`;
      const found = await replan(
        { plan: made, file: "k" },
        waiting,
        { file: "h", text },
        { engines, seconds: 10 },
      );
      if (found.replanned?.plan == null) throw new Error("no plan");
      expectBalanced(found.replanned.plan);
      const { dishes } = found.replanned.plan;
      return ["pot", "side dish", "roast"].map(
        (name) => dishes.find(({ dish }) => dish === name)?.portions ?? 0,
      );
    };
    // Thursday's pot of 30 leaves 10 for Friday, all vegetarian: more mains need not be; of six, four are too many.
    expect(await portions(11)).toEqual([30, 9, 1]);
    expect(await portions(6)).toEqual([30, 5, 0]);
  });

  const onFriday = async (text: string, happened: string) => {
    const asked = scenarioOf(text);
    const { plan: made } = await planScenario(asked, { engines, seconds: 10 });
    const source = { file: "h.yaml", text: `before: Friday\n${happened}` };
    return replan({ plan: made, file: "k" }, asked, source, { engines, seconds: 10 });
  };

  it("gives no portion that waits to people of two diets", async () => {
    const text = WAITING_POT.replace("EUR", "EUR\naim: cost")
      .replace("1 to 2", "1 to 3")
      .replace("vegetarian: 4", "vegetarian: 7, gluten free: 5")
      .replaceAll("diets: [vegetarian]", "diets: [vegetarian, gluten free]")
      .concat("  stew: {course: main, services: Friday, diets: [gluten free], staples: {butter: 0.50}, ")
      .concat("lines: [{amount: 300 g, from: marrow dice}]}\n");
    const { replanned: found } = await onFriday(text, "covers: {Friday: 14}\ncan_buy: marrow\n");
    if (found?.plan == null) throw new Error("no plan");
    expectBalanced(found.plan);
    // Ten of the pot wait, enough for the 7 and enough for the 5; for the 12 two stews are cooked, dearer than roast.
    expect(found.plan.dishes.map(({ dish, portions }) => [dish, portions])).toEqual([
      ["pot", 30],
      ["side dish", 12],
      ["roast", 2],
      ["stew", 2],
    ]);
  });

  it("asks nothing more for a diet where all that is eaten waits", async () => {
    const text = WAITING_POT.replace(", side: 80 %", "").replace(/ {2}side dish: .*\n/, "");
    const { replanned: found } = await onFriday(text, "covers: {Friday: 10}\n");
    if (found?.plan == null) throw new Error("no plan");
    expectBalanced(found.plan);
    expect(found.plan.dishes.map(({ dish, portions }) => [dish, portions])).toEqual([["pot", 30]]);
  });

  it("asks who still comes where fewer do than need a diet", async () => {
    const { problems } = await onFriday(WAITING_POT, "covers: {Friday: 3}\n");
    expect(problems.map(problemText)).toEqual([
      "h.yaml:2:10: 4 of the covers at `Friday` need a diet, and only 3 come. Write under `diets:` of the scenario how many of them still come",
    ]);
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
      "h.yaml:2:23: 10 head of `marrow` cut before that service, and only 5 there. Count again, or write an earlier service under `before:`",
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
    const change = { part: "marrow dice", dish: "dice pot", service: "Friday" };
    const now = {
      ...kept,
      services: kept.services.map((each, at) => ({ ...each, covers: at === 1 ? 30 : each.covers })),
    };
    const text = replanText(
      kept,
      now,
      {
        from: "Friday",
        overCeiling: ["dice pot"],
        changes: {
          plan: [
            {
              kind: "buy",
              name: "marrow",
              breakdown: null,
              service: null,
              unit: "head",
              before: "0",
              after: "2",
            },
          ],
          goings: [{ ...change, before: new Decimal(4000), after: new Decimal(3200) }],
        },
      },
      writingFor(scenario),
    );
    const html = replanPage(text, scenario).html.replace(/\s/g, " ");
    expect(html).toContain("Buy 2 heads of marrow, 2 more");
    expect(html).toContain("Put 3,200 g of marrow dice in dice pot for Friday, 800 g less");
    expect(html).toContain("What changes from Friday on");
    expect(html).toContain("Write the new covers in the scenario too: Friday 30.");
    expect(html).toContain("Above its ceiling by what went before: dice pot.");
  });
});
