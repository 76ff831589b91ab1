import { describe, expect, it } from "vitest";
import type { CostingName, Decision, Part, Scenario } from "../../src/kitchen/index.js";
import { CostingError, costingProblems, keepLedger, LedgerError } from "../../src/ledger/index.js";
import { Decimal, grams, money } from "../../src/quantity/index.js";
import { moneyOf, movementsOf } from "../support/ledger-checks.js";
import {
  aBreakdown,
  aCooking,
  aDecision,
  aDish,
  aGoing,
  aLine,
  anItem,
  aPart,
  aScenario,
  aService,
  aStep,
  cutLot,
} from "../support/nouns.js";

// Invented figures, worked by hand.

/** One 1,000 g duck for 10.00: breast 300, leg 400, bone 250, loss 50; 100 g of leg and 150 g of bone go to waste. */
function duck(
  costing: CostingName,
  values: { breast: string | null; leg: string | null; bone: string | null },
  price = "10.00",
): { scenario: Scenario; decision: Decision } {
  const valued = (value: string | null): Partial<Part> => ({
    marketValue: value === null ? null : money(value),
  });
  const scenario = aScenario({
    costing,
    services: [aService("Friday")],
    items: [
      anItem({
        name: "duck",
        unitWeight: grams("1000"),
        breakdowns: [aBreakdown("joints", { breast: "0.3", leg: "0.4", bone: "0.25" }, "0.05")],
      }),
    ],
    parts: [
      aPart("breast", "food", valued(values.breast)),
      aPart("leg", "food", valued(values.leg)),
      aPart("bone", "inedible", valued(values.bone)),
      aPart("stock"),
    ],
    steps: [aStep("pot", ["bone"], { stock: "1" })],
    dishes: [aDish("breast", [aLine("300", "breast")]), aDish("leg", [aLine("300", "leg")])],
  });
  const decision = aDecision({
    purchases: [{ item: "duck", service: 0, orderUnits: 1, weight: grams("1000"), cost: money(price) }],
    cuts: [
      {
        item: "duck",
        breakdown: "joints",
        service: 0,
        units: 1,
        weight: grams("1000"),
        parts: [
          { part: "breast", weight: grams("300") },
          { part: "leg", weight: grams("400") },
          { part: "bone", weight: grams("250") },
        ],
        loss: grams("50"),
      },
    ],
    preps: [
      {
        step: "pot",
        from: cutLot("bone"),
        service: 0,
        weight: grams("100"),
        water: grams("0"),
        parts: [{ part: "stock", weight: grams("100") }],
        loss: grams("0"),
      },
    ],
    goings: [aGoing(cutLot("breast"), "breast", grams("300")), aGoing(cutLot("leg"), "leg", grams("300"))],
    cookings: [aCooking("breast", 1), aCooking("leg", 1)],
    sends: [
      { lot: cutLot("leg"), destination: "refuse", weight: grams("100") },
      { lot: cutLot("bone"), destination: "refuse", weight: grams("150") },
    ],
    kept: [{ lot: cutLot("stock"), weight: grams("100"), lastDay: null }],
  });
  return { scenario, decision };
}

function carried(plan: { scenario: Scenario; decision: Decision }): Record<string, string> {
  const ledger = keepLedger(plan.scenario, plan.decision);
  const ends = ["dish:breast", "dish:leg", "closingStock", "wastedFood:refuse", "inedible:refuse"];
  return Object.fromEntries(
    ends.map((end) => {
      const [line = ""] = movementsOf(ledger, `> ${end}`);
      return [end, /g, ([\d.]+) \(/.exec(line)?.[1] ?? "none"];
    }),
  );
}

describe("by edible weight", () => {
  it("food bears the cost by weight, whether used or wasted; bones and what is made of them bear nothing", () => {
    // 10.00 over 700 g of food: 4.2857 and 5.7143, a quarter of the latter wasted.
    expect(carried(duck("edible weight", { breast: null, leg: null, bone: "0.50" }))).toEqual({
      "dish:breast": "4.2857",
      "dish:leg": "4.2857",
      closingStock: "0",
      "wastedFood:refuse": "1.4286",
      "inedible:refuse": "0",
    });
  });
});

describe("by trim credit", () => {
  it("credits only what is used, and the main part bears the rest", () => {
    // Leg 300 g used at 8.00/kg = 2.40; bone 100 g at 1.00/kg = 0.10; breast 10.00 - 2.50.
    expect(carried(duck("trim credit", { breast: null, leg: "8.00", bone: "1.00" }))).toEqual({
      "dish:breast": "7.5",
      "dish:leg": "2.4",
      closingStock: "0.1",
      "wastedFood:refuse": "0",
      "inedible:refuse": "0",
    });
  });

  it("only moves cost: the same is spent, and nothing more is carried than was paid", () => {
    const plan = duck("trim credit", { breast: null, leg: "8.00", bone: "1.00" });
    expect(moneyOf(keepLedger(plan.scenario, plan.decision))).toEqual({
      spent: "10",
      stockValue: "0",
      inDishes: "9.9",
      givenAway: "0",
      closingStock: "0.1",
      wasted: "0",
    });
  });

  it("takes credits up to the joint cost", () => {
    expect(carried(duck("trim credit", { breast: null, leg: "33.00", bone: "1.00" }))).toMatchObject({
      "dish:breast": "0",
      "dish:leg": "9.9",
    });
  });

  it("refuses credits above the joint cost, naming the item and both figures", () => {
    const { scenario, decision } = duck("trim credit", { breast: null, leg: "33.01", bone: "1.00" });
    const refusal = refusalOf(() => keepLedger(scenario, decision));
    expect(refusal).toBeInstanceOf(CostingError);
    expect((refusal as CostingError).problems).toEqual([
      {
        code: "costing/credits-above-cost",
        item: "duck",
        credits: money("10.003"),
        jointCost: money("10"),
        what: "The by-products of duck are credited with 10.0030, more than the 10.00 that all of it cost",
        remedy: "Lower the credit of leg, bone, or cost by edible weight or sales value",
      },
    ]);
    expect((refusal as CostingError).message).toBe(
      "The by-products of duck are credited with 10.0030, more than the 10.00 that all of it cost. Lower the credit of leg, bone, or cost by edible weight or sales value",
    );
  });

  it("gives no credit to what is not for eating and sent away, wherever it goes", () => {
    const { scenario, decision } = duck("trim credit", { breast: null, leg: "8.00", bone: "1.00" });
    const sends = decision.sends.map((send) => ({ ...send, destination: "staff meal" }));
    // The leg given away is used: 400 g at 8.00. The bone is not: 100 g at 1.00, all of it in the pot.
    const given = keepLedger(scenario, { ...decision, sends });
    expect(movementsOf(given, "> givenAway:staff meal")).toEqual([
      "part:leg > givenAway:staff meal: 100 g, 0.8 (left over)",
    ]);
    expect(movementsOf(given, "part:bone >")).toEqual([
      "part:bone > part:stock: 100 g, 0.1 (pot for Friday)",
      "part:bone > inedible:staff meal: 150 g, 0 (not for eating)",
    ]);
    expect(movementsOf(given, "> part:breast")[0]).toContain("300 g, 6.7 ");
  });

  it("gives no credit to parts that must not be eaten, even when a step takes them", () => {
    const { scenario, decision } = duck("trim credit", { breast: null, leg: "8.00", bone: "1.00" });
    const parts = scenario.parts.map((part) =>
      part.name === "bone" ? { ...part, class: "never" as const } : part,
    );
    const shared = carried({ scenario: { ...scenario, parts }, decision });
    expect(shared).toMatchObject({ "dish:breast": "7.6", closingStock: "0" });
  });

  it("without a main part, joint products share the cost by sales value, used or not", () => {
    // 300 g at 20.00 = 6.00, 400 g at 8.00 = 3.20, 250 g at 1.00 = 0.25: 6.3492, 3.3862 and 0.2646 of 10.00.
    const values = { breast: "20.00", leg: "8.00", bone: "1.00" };
    const joint = carried(duck("trim credit", values));
    expect(joint).toEqual({
      "dish:breast": "6.3492",
      "dish:leg": "2.5397",
      closingStock: "0.1058",
      "wastedFood:refuse": "0.8465",
      "inedible:refuse": "0.1588",
    });
    expect(joint).toEqual(carried(duck("sales value", values)));
  });
});

describe("by sales value at split-off", () => {
  it("asks for the market value of every food part before anything is planned", () => {
    const { scenario, decision } = duck("sales value", { breast: null, leg: null, bone: null });
    const problems = costingProblems(scenario);
    expect(problems.map(({ what }) => what)).toEqual([
      "breast has no market value, and costing by sales value needs one for every food part of duck",
      "leg has no market value, and costing by sales value needs one for every food part of duck",
    ]);
    const refusal = refusalOf(() => keepLedger(scenario, decision));
    expect(refusal).toBeInstanceOf(CostingError);
    expect((refusal as CostingError).problems).toEqual(problems);
    expect(costingProblems(duck("edible weight", { breast: null, leg: null, bone: null }).scenario)).toEqual(
      [],
    );
  });

  it("lets parts that must not be eaten bear nothing, even with a market value", () => {
    const { scenario, decision } = duck("sales value", { breast: "20.00", leg: "8.00", bone: "1.00" });
    const parts = scenario.parts.map((part) =>
      part.name === "bone" ? { ...part, class: "never" as const } : part,
    );
    // Breast 6.00 and leg 3.20 of 9.20.
    const shared = carried({ scenario: { ...scenario, parts }, decision });
    expect(shared).toMatchObject({ "dish:breast": "6.5217", closingStock: "0", "inedible:refuse": "0" });
  });

  it("goes by edible weight where nothing is worth anything", () => {
    expect(carried(duck("sales value", { breast: "0", leg: "0", bone: null }))).toMatchObject({
      "dish:breast": "4.2857",
      "wastedFood:refuse": "1.4286",
    });
  });
});

describe("an item that gives no food", () => {
  const bones = (marketValue: string | null, costing: CostingName) => {
    const scenario = aScenario({
      costing,
      services: [aService("Friday")],
      items: [
        anItem({
          name: "veal bones",
          unitWeight: grams("1000"),
          breakdowns: [aBreakdown("chopped", { bone: "0.9" }, "0.1")],
        }),
      ],
      parts: [
        aPart("bone", "inedible", { marketValue: marketValue === null ? null : money(marketValue) }),
        aPart("stock"),
        aPart("spent bone", "inedible"),
      ],
      steps: [aStep("pot", ["bone"], { stock: "1", "spent bone": "1" }, { water: new Decimal(1) })],
    });
    const decision = aDecision({
      purchases: [{ item: "veal bones", service: 0, orderUnits: 1, weight: grams("1000"), cost: money("3") }],
      cuts: [
        {
          item: "veal bones",
          breakdown: "chopped",
          service: 0,
          units: 1,
          weight: grams("1000"),
          parts: [{ part: "bone", weight: grams("900") }],
          loss: grams("100"),
        },
      ],
      preps: [
        {
          step: "pot",
          from: cutLot("bone"),
          service: 0,
          weight: grams("600"),
          water: grams("600"),
          parts: [
            { part: "stock", weight: grams("600") },
            { part: "spent bone", weight: grams("600") },
          ],
          loss: grams("0"),
        },
      ],
      sends: [
        { lot: cutLot("bone"), destination: "refuse", weight: grams("300") },
        { lot: cutLot("spent bone"), destination: "refuse", weight: grams("600") },
      ],
      kept: [{ lot: cutLot("stock"), weight: grams("600"), lastDay: null }],
    });
    return moneyOf(keepLedger(scenario, decision));
  };

  it.each(["edible weight", "trim credit", "sales value"] as const)(
    "bears its cost by weight by %s: the stock carries that of the bones it took, the bin the rest",
    (costing) => {
      const expected = { spent: "3", inDishes: "0", givenAway: "0", closingStock: "2", wasted: "1" };
      expect(bones(null, costing)).toMatchObject(expected);
      expect(bones("0.50", costing)).toMatchObject(expected);
    },
  );
});

describe("money without weight", () => {
  it("is refused, never lost: an item", () => {
    const scenario = aScenario({
      services: [aService("Friday")],
      items: [anItem({ name: "ghost", unitWeight: grams("1"), breakdowns: [] })],
      parts: [],
    });
    const decision = aDecision({
      purchases: [{ item: "ghost", service: 0, orderUnits: 1, weight: grams("0"), cost: money("2") }],
    });
    expect(() => keepLedger(scenario, decision)).toThrow(
      new LedgerError("ghost carries 2.0000 but has no weight to carry it away with"),
    );
  });

  it("is refused, never lost: a part on hand", () => {
    const scenario = aScenario({
      services: [aService("Friday")],
      items: [],
      parts: [aPart("leaf")],
      partsOnHand: [{ part: "leaf", weight: grams("0"), value: money("1"), useBy: null, lastDay: null }],
    });
    expect(() => keepLedger(scenario, aDecision({}))).toThrow(
      new LedgerError("leaf, from stock on hand 1 carries 1.0000 but has no weight to carry it away with"),
    );
  });
});

describe("money below zero", () => {
  it("is refused", () => {
    const { scenario, decision } = duck("edible weight", { breast: null, leg: null, bone: null }, "-1");
    expect(() => keepLedger(scenario, decision)).toThrow(
      new LedgerError("less than nothing moves from supplier to item:duck (bought for Friday)"),
    );
  });
});

describe("one pool an item", () => {
  it("mixes what was bought with what was on hand at its value, over cut, binned and kept", () => {
    // 3 heads: two bought at 1.00, one on hand at 0.40: 0.80 each.
    const scenario = aScenario({
      services: [aService("Friday"), aService("Saturday", 1)],
      items: [
        anItem({
          name: "kale",
          unitWeight: grams("500"),
          onHand: [{ units: new Decimal(1), weight: grams("500"), value: money("0.40"), lastDay: 0 }],
          carry: { use: "Monday soup", limit: grams("500"), valuePerKilogram: money("0") },
          breakdowns: [aBreakdown("picked", { leaf: "0.8", rib: "0.2" }, "0")],
        }),
      ],
      parts: [aPart("leaf"), aPart("rib", "inedible")],
      dishes: [aDish("kale", [aLine("400", "leaf")])],
    });
    const decision = aDecision({
      purchases: [{ item: "kale", service: 0, orderUnits: 2, weight: grams("1000"), cost: money("2") }],
      cuts: [
        {
          item: "kale",
          breakdown: "picked",
          service: 1,
          units: 1,
          weight: grams("500"),
          parts: [
            { part: "leaf", weight: grams("400") },
            { part: "rib", weight: grams("100") },
          ],
          loss: grams("0"),
        },
      ],
      binned: [{ item: "kale", service: 0, units: 1, weight: grams("500") }],
      keptItems: [{ item: "kale", service: 1, units: 1, weight: grams("500") }],
      goings: [aGoing(cutLot("leaf", 1), "kale", grams("400"), { service: 1 })],
      cookings: [aCooking("kale", 1, 1)],
      sends: [{ lot: cutLot("rib", 1), destination: "refuse", weight: grams("100") }],
    });
    expect(moneyOf(keepLedger(scenario, decision))).toEqual({
      spent: "2",
      stockValue: "0.4",
      inDishes: "0.8",
      givenAway: "0",
      closingStock: "0.8",
      wasted: "0.8",
    });
  });
});

function refusalOf(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    return error;
  }
  throw new Error("nothing was refused");
}
