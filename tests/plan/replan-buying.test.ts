import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { decisionOf, type PlanJson } from "../../src/contract/index.js";
import { buyableBefore, pastOf, restOf } from "../../src/insight/index.js";
import type { HappenedFile } from "../../src/kitchen/index.js";
import { planScenario, replan } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { rowsOf } from "../../src/weigh-in/rows-of.js";
import { rewritten, scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { TWO_EVENINGS } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

async function onTheDay(scenarioText: string, text: string) {
  const scenario = scenarioOf(scenarioText);
  const { plan: kept } = await planScenario(scenario, { engines, seconds: 10 });
  const { replanned, problems } = await replan(
    { plan: kept, file: "k.plan.json" },
    scenario,
    { file: "h.yaml", text },
    { engines, seconds: 20 },
  );
  expect(problems.map(problemText)).toEqual([]);
  if (replanned === null) throw new Error("not planned again");
  return { kept, ...replanned };
}

async function planned(scenarioText: string, text: string): Promise<PlanJson> {
  const { plan } = await onTheDay(scenarioText, text);
  if (plan === null) throw new Error("no plan");
  expectBalanced(plan);
  return plan;
}

/** Delivered on both evenings. */
const TWICE = rewritten(
  TWO_EVENINGS,
  "    keeps: 5 days\n",
  "    keeps: 5 days\n    deliveries: [2026-10-08, 2026-10-09]\n",
);
/** Thursday's dinner becomes a lunch of the same day as the second service. */
const ONE_DAY = rewritten(TWO_EVENINGS, "date: 2026-10-09", "date: 2026-10-08");

describe("what can be bought on the day", () => {
  it("is what is delivered that very day, where nothing is said", async () => {
    // 30 portions of 150 g at least are 4.5 kg of dice; ten marrows gave 4 kg, and one gives 400 g and 400 g of ring.
    for (const text of [TWICE, ONE_DAY]) {
      const plan = await planned(text, "before: Friday\ncovers: {Friday: 30}\n");
      expect(plan.purchases).toMatchObject([
        { units: 10, service: "Thursday" },
        { units: 1, service: "Friday" },
      ]);
    }
  });

  it("is not what was delivered on another day", async () => {
    const { plan, rest } = await onTheDay(TWO_EVENINGS, "before: Friday\ncovers: {Friday: 30}\n");
    expect(plan).toBeNull();
    expect(rest.plan.outcome.kind).toBe("infeasible");
  });

  it("is not what came short, and is nothing where that is said", async () => {
    const scenario = scenarioOf(TWICE);
    const { plan } = await planScenario(scenario, { engines, seconds: 10 });
    const buyable = (before: number, happened: Omit<HappenedFile, "before">) =>
      buyableBefore(before, decisionOf(plan, scenario), scenario, { before: "", ...happened });
    expect(buyable(0, {})).toEqual(["marrow"]);
    expect(buyable(0, { delivered: { marrow: 10 } })).toEqual(["marrow"]);
    expect(buyable(0, { delivered: { marrow: 9 } })).toEqual([]);
    expect(buyable(1, { can_buy: [] })).toEqual([]);
    const { plan: none } = await onTheDay(TWICE, "before: Friday\ncovers: {Friday: 30}\ncan_buy: []\n");
    expect(none).toBeNull();
  });

  it("joins what was ordered for the same service, and is one line to weigh in", async () => {
    const plan = await planned(TWO_EVENINGS, "before: Thursday\ncovers: {Friday: 30}\n");
    expect(plan.purchases).toMatchObject([
      { units: 11, service: "Thursday", weight: "11000", cost: "22.00" },
    ]);
    const scenario = scenarioOf(TWO_EVENINGS);
    const lines = rowsOf(decisionOf(plan, scenario), scenario).filter(({ what }) => what === "bought");
    expect(lines).toHaveLength(3);
  });
});

describe("buying as a remedy, where the rest can't be done", () => {
  it("names how many to buy, the least that would do", async () => {
    const { rest, kept, scenario } = await onTheDay(TWO_EVENINGS, "before: Friday\ncovers: {Friday: 30}\n");
    const reason = rest.plan.reasons.find(({ change }) => change.startsWith("marrow bought before Friday"));
    expect(reason).toMatchObject({
      change: "marrow bought before Friday: 1 x head",
      text: "Buy 1 x head of marrow before Friday, if it can be had.",
      checked: "planned again; there is no smaller step than 1 head",
    });
    const past = pastOf(decisionOf(kept, scenario), scenario, { before: "Friday" }, () => undefined);
    if (past === null) throw new Error("no past");
    expect(restOf(past, scenario, []).items[0]).toMatchObject({
      buying: null,
      inShops: { deliveries: [0], least: 0, most: null },
    });
    expect(restOf(past, scenario, ["marrow"]).items[0]?.inShops).toBeUndefined();
  });

  it("keeps to the most of the item, less what was bought", async () => {
    const most = (units: number) =>
      rewritten(TWO_EVENINGS, "    keeps: 5 days\n", `    keeps: 5 days\n    buy: 0 to ${units}\n`);
    const asked = "before: Friday\ncovers: {Friday: 40}\ncan_buy: []\n";
    const changes = async (text: string) =>
      (await onTheDay(text, asked)).rest.plan.reasons.map(({ change }) => change);
    // 40 portions of 150 g are 6 kg: 2 kg more, and a marrow gives 800 g of dice and of rings, diced.
    expect(await changes(most(20))).toContain("marrow bought before Friday: 3 x head");
    expect((await changes(most(12))).some((change) => change.startsWith("marrow bought"))).toBe(false);
  });

  it("is not named where it can be bought already, or never could", async () => {
    const names = async (text: string, happened: string) =>
      (await onTheDay(text, happened)).rest.plan.reasons.map(({ change }) => change);
    const short = "before: Friday\ncovers: {Friday: 50}\ncan_buy: [marrow]\n";
    const limited = rewritten(TWO_EVENINGS, "    keeps: 5 days\n", "    keeps: 5 days\n    buy: 0 to 12\n");
    const found = await names(limited, short);
    expect(found.some((change) => change.startsWith("marrow bought"))).toBe(false);
    expect(found.some((change) => change.startsWith("most marrow to buy"))).toBe(true);
  });

  it("says so of what comes with a later delivery only", async () => {
    const three = rewritten(
      rewritten(
        TWO_EVENINGS,
        "items:\n",
        "  - {name: Saturday, date: 2026-10-10, sitting: dinner, covers: 2}\nitems:\n",
      ),
      "    keeps: 5 days\n",
      "    keeps: 5 days\n    deliveries: [2026-10-08, 2026-10-10]\n",
    );
    const { rest } = await onTheDay(three, "before: Friday\ncovers: {Friday: 30}\n");
    expect(rest.plan.reasons.map(({ change, text }) => [change, text])).toContainEqual([
      "marrow bought before Friday: can be bought",
      "Buy marrow before Friday, if it can be had.",
    ]);
  });
});

describe("what was ordered, and came otherwise", () => {
  const PRICED = rewritten(
    rewritten(
      TWO_EVENINGS,
      "    price: 2.00 / head\n",
      '    supplier: Green Lane\n    price: "2.00 / head; from 10: 1.50 / head"\n',
    ),
    "items:\n",
    "suppliers: {Green Lane: {minimum: 10.00, delivery: 6.50}}\nitems:\n",
  );

  it("is paid at the price ordered where some is missing, and the delivery whole", async () => {
    const fewer = rewritten(PRICED, "amount: 200 g", "amount: 150 to 200 g");
    const plan = await planned(fewer, "before: Thursday\ndelivered: {marrow: 9}\n");
    expect(plan.purchases).toMatchObject([{ units: 9, cost: "13.50", delivery: "6.50" }]);
    expect(plan.money.spent).toBe("22.00");
  });

  it("is charged nothing where nothing came", async () => {
    const { kept, scenario } = await onTheDay(PRICED, "before: Thursday\n");
    const happened = { before: "Thursday", delivered: { marrow: 0 } };
    const past = pastOf(decisionOf(kept, scenario), scenario, happened, () => undefined);
    expect(past?.decision.purchases).toEqual([]);
  });

  it("is an order of its own when bought on the day: the least order, the charge and the price of a few", async () => {
    const plan = await planned(PRICED, "before: Friday\ncovers: {Friday: 30}\ncan_buy: marrow\n");
    // One is enough; five make the least order of 10.00.
    expect(plan.purchases).toMatchObject([
      { units: 10, service: "Thursday", cost: "15.00", delivery: "6.50" },
      { units: 5, service: "Friday", cost: "10.00", delivery: "6.50" },
    ]);
  });
});
