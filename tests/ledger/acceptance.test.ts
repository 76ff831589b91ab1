import { describe, expect, it } from "vitest";
import type { Cut, Decision, Scenario } from "../../src/kitchen/index.js";
import { dishesOverCeiling, keepLedger } from "../../src/ledger/index.js";
import {
  Decimal,
  grams,
  money,
  roundTogether,
  toCurrency,
  total,
  type Weight,
} from "../../src/quantity/index.js";
import { gramsText, moneyOf, moneyText, movementsOf, weightsOf } from "../support/ledger-checks.js";
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
  aStaple,
  aStep,
  cutLot,
} from "../support/nouns.js";
import { COUNTS_NO_PEEL, COUNTS_PEEL } from "../support/waste-counts.js";

// Invented cases, worked by hand.

const FRIDAY = aService("Friday dinner");

function cut(
  item: string,
  breakdown: string,
  units: number,
  parts: Record<string, string>,
  loss: string,
): Cut {
  const weights = Object.entries(parts).map(([part, weight]) => ({ part, weight: grams(weight) }));
  const weight = total([...weights.map((part) => part.weight), grams(loss)]);
  return { item, breakdown, service: 0, units, weight, parts: weights, loss: grams(loss) };
}

describe("whole units force a mix of cuts", () => {
  const scenario = (countAvoidablePeel: boolean): Scenario =>
    aScenario({
      wasteCounts: countAvoidablePeel ? COUNTS_PEEL : COUNTS_NO_PEEL,
      services: [FRIDAY],
      items: [
        anItem({
          name: "squash",
          unitWeight: grams("1400"),
          breakdowns: [
            aBreakdown(
              "rings",
              { "squash ring": "480/1400", "squash dice": "500/1400", "squash peel": "400/1400" },
              "20/1400",
            ),
            aBreakdown("dice", { "squash dice": "1080/1400", "squash peel": "300/1400" }, "20/1400"),
          ],
        }),
      ],
      parts: [aPart("squash ring"), aPart("squash dice"), aPart("squash peel", "inedible")],
      dishes: [
        aDish("squash rings", [aLine("120", "squash ring")]),
        aDish("squash soup", [aLine("200", "squash dice")]),
      ],
    });
  const decision = aDecision({
    purchases: [{ item: "squash", service: 0, orderUnits: 5, weight: grams("7000"), cost: money("10.50") }],
    cuts: [
      cut("squash", "rings", 2, { "squash ring": "960", "squash dice": "1000", "squash peel": "800" }, "40"),
      cut("squash", "dice", 3, { "squash dice": "3240", "squash peel": "900" }, "60"),
    ],
    goings: [
      aGoing(cutLot("squash ring"), "squash rings", grams("960")),
      aGoing(cutLot("squash dice"), "squash soup", grams("4200")),
    ],
    cookings: [aCooking("squash rings", 8), aCooking("squash soup", 21)],
    sends: [
      { lot: cutLot("squash dice"), destination: "refuse", weight: grams("40") },
      { lot: cutLot("squash peel"), destination: "refuse", weight: grams("1700") },
    ],
  });

  it("closes at 7,000 g and 10.50", () => {
    const ledger = keepLedger(scenario(false), decision);
    expect(weightsOf(ledger)).toEqual({
      purchased: "7000",
      onHand: "0",
      absorbed: "0",
      inDishes: "5160",
      givenAway: "0",
      closingStock: "0",
      wastedFood: "40",
      inedible: "1700",
      losses: "100",
      avoidablePeel: "200",
    });
    // 4.20 of ring cuts over 1,960 g of food, 2.1429 of it dice; 6.30 of dice cuts; 8.4429 over 4,240 g of dice.
    expect(moneyOf(ledger)).toEqual({
      spent: "10.5",
      stockValue: "0",
      inDishes: "10.4204",
      givenAway: "0",
      closingStock: "0",
      wasted: "0.0796",
    });
  });

  it("writes every movement down", () => {
    expect(movementsOf(keepLedger(scenario(false), decision))).toEqual([
      "supplier > item:squash: 7000 g, 10.5 (bought for Friday dinner)",
      "item:squash > part:squash ring: 960 g, 2.0571 (rings for Friday dinner)",
      "item:squash > part:squash dice: 1000 g, 2.1429 (rings for Friday dinner)",
      "item:squash > part:squash peel: 800 g, 0 (rings for Friday dinner)",
      "item:squash > loss:cutting: 40 g, 0 (rings for Friday dinner)",
      "item:squash > part:squash dice: 3240 g, 6.3 (dice for Friday dinner)",
      "item:squash > part:squash peel: 900 g, 0 (dice for Friday dinner)",
      "item:squash > loss:cutting: 60 g, 0 (dice for Friday dinner)",
      "part:squash ring > dish:squash rings @ Friday dinner: 960 g, 2.0571 (squash ring)",
      "part:squash dice > dish:squash soup @ Friday dinner: 4200 g, 8.3633 (squash dice)",
      "part:squash dice > wastedFood:refuse: 40 g, 0.0796 (left over)",
      "part:squash peel > inedible:refuse: 1700 g, 0 (not for eating)",
    ]);
  });

  it("has 100 g of avoidable peel a ring cut, and counts it where the scenario does", () => {
    for (const [counts, counted] of [
      [true, "240"],
      [false, "40"],
    ] as const) {
      const { weights, waste } = keepLedger(scenario(counts), decision);
      expect(gramsText(weights.avoidablePeel)).toBe("200");
      expect(gramsText(weights.inedible)).toBe("1700");
      expect(gramsText(waste.counted)).toBe(counted);
    }
  });
});

describe("a ceiling that can't be kept", () => {
  const plan = (asked: { aubergines: number; portion: string; ceiling: string }) => {
    const bought = BigInt(asked.aubergines);
    const flesh = 255n * bought;
    const used = BigInt(asked.portion) * 24n;
    const scenario = aScenario({
      services: [FRIDAY],
      items: [
        anItem({
          name: "aubergine",
          unitWeight: grams("300"),
          breakdowns: [aBreakdown("peeled", { "aubergine flesh": "0.85", "aubergine peel": "0.12" }, "0.03")],
        }),
      ],
      parts: [aPart("aubergine flesh"), aPart("aubergine peel", "inedible")],
      dishes: [
        aDish(
          "aubergine bake",
          [aLine(asked.portion, "aubergine flesh")],
          [aStaple("oil", "0.06"), aStaple("other staples", "0.32")],
          { ceiling: money(asked.ceiling) },
        ),
      ],
    });
    const decision = aDecision({
      purchases: [
        {
          item: "aubergine",
          service: 0,
          orderUnits: asked.aubergines,
          weight: grams(300n * bought),
          cost: money(new Decimal("0.75").times(asked.aubergines)),
        },
      ],
      cuts: [
        cut(
          "aubergine",
          "peeled",
          asked.aubergines,
          { "aubergine flesh": `${flesh}`, "aubergine peel": `${36n * bought}` },
          `${9n * bought}`,
        ),
      ],
      goings: [aGoing(cutLot("aubergine flesh"), "aubergine bake", grams(used))],
      cookings: [aCooking("aubergine bake", 24)],
      sends: [
        { lot: cutLot("aubergine flesh"), destination: "refuse", weight: grams(flesh - used) },
        { lot: cutLot("aubergine peel"), destination: "refuse", weight: grams(36n * bought) },
      ],
    });
    const ledger = keepLedger(scenario, decision);
    return { ledger, over: dishesOverCeiling(scenario, ledger) };
  };

  it("costs 0.88 a plate from 16 aubergines, which 0.88 allows and 0.85 does not", () => {
    const { ledger, over } = plan({ aubergines: 16, portion: "170", ceiling: "0.88" });
    expect(ledger.dishCosts.map(({ cost }) => moneyText(cost))).toEqual(["21.12"]);
    expect(over).toEqual([]);
    const tight = plan({ aubergines: 16, portion: "170", ceiling: "0.85" }).over;
    expect(tight.map(({ dish, excess }) => [dish, moneyText(excess)])).toEqual([["aubergine bake", "0.72"]]);
  });

  it("is over by the least money there is, and not a rounded figure a plate", () => {
    expect(plan({ aubergines: 16, portion: "170", ceiling: "0.8799" }).over).toHaveLength(1);
  });

  it("costs 0.84765 a plate with 159 g portions from 15 aubergines", () => {
    const { ledger, over } = plan({ aubergines: 15, portion: "159", ceiling: "0.85" });
    const cost = ledger.dishCosts[0]?.cost ?? money("0");
    expect(toCurrency(cost).div(24).toFixed(5)).toBe("0.84765");
    expect(over).toEqual([]);
  });
});

describe("cooked weight and trim credit", () => {
  const scenario = aScenario({
    costing: "trim credit",
    services: [FRIDAY],
    items: [
      anItem({
        name: "chicken",
        unitName: "bird",
        unitWeight: grams("1600"),
        breakdowns: [
          aBreakdown(
            "joints",
            {
              "chicken breast": "0.25",
              "chicken leg": "0.3",
              "chicken wing": "0.1",
              "chicken carcass": "0.275",
              "chicken fat": "0.05",
            },
            "0.025",
          ),
        ],
      }),
    ],
    parts: [
      aPart("chicken breast"),
      aPart("chicken leg", "food", { marketValue: money("4.50") }),
      aPart("chicken wing", "food", { marketValue: money("3.00") }),
      aPart("chicken carcass", "inedible", { marketValue: money("0.50") }),
      aPart("chicken fat", "inedible"),
      aPart("chicken leg meat"),
      aPart("chicken leg bone", "inedible"),
      aPart("chicken stock", "food", {
        carry: { use: "Monday soup", limit: grams("4000"), valuePerKilogram: money("0") },
      }),
      aPart("spent bones", "inedible"),
    ],
    steps: [
      aStep(
        "pick the legs",
        ["chicken leg"],
        { "chicken leg meat": "0.65", "chicken leg bone": "0.2" },
        { loss: new Decimal("0.15") },
      ),
      aStep(
        "pot of stock",
        ["chicken carcass"],
        { "chicken stock": "1", "spent bones": "1" },
        { water: new Decimal("1"), capacity: grams("4000") },
      ),
    ],
    dishes: [
      aDish("roast breast", [aLine("120", "chicken breast", "0.75")]),
      aDish("leg pie", [aLine("144", "chicken leg meat")]),
      aDish("crisp wings", [aLine("160", "chicken wing")]),
    ],
  });
  const decision: Decision = aDecision({
    purchases: [
      { item: "chicken", service: 0, orderUnits: 12, weight: grams("19200"), cost: money("76.80") },
    ],
    cuts: [
      cut(
        "chicken",
        "joints",
        12,
        {
          "chicken breast": "4800",
          "chicken leg": "5760",
          "chicken wing": "1920",
          "chicken carcass": "5280",
          "chicken fat": "960",
        },
        "480",
      ),
    ],
    preps: [
      {
        step: "pick the legs",
        from: cutLot("chicken leg"),
        service: 0,
        weight: grams("5760"),
        water: grams("0"),
        parts: [
          { part: "chicken leg meat", weight: grams("3744") },
          { part: "chicken leg bone", weight: grams("1152") },
        ],
        loss: grams("864"),
      },
      {
        step: "pot of stock",
        from: cutLot("chicken carcass"),
        service: 0,
        weight: grams("4000"),
        water: grams("4000"),
        parts: [
          { part: "chicken stock", weight: grams("4000") },
          { part: "spent bones", weight: grams("4000") },
        ],
        loss: grams("0"),
      },
    ],
    goings: [
      aGoing(cutLot("chicken breast"), "roast breast", grams("4800")),
      aGoing(cutLot("chicken leg meat"), "leg pie", grams("3744")),
      aGoing(cutLot("chicken wing"), "crisp wings", grams("1920")),
    ],
    cookings: [aCooking("roast breast", 30), aCooking("leg pie", 26), aCooking("crisp wings", 12)],
    sends: [
      { lot: cutLot("chicken carcass"), destination: "refuse", weight: grams("1280") },
      { lot: cutLot("chicken fat"), destination: "refuse", weight: grams("960") },
      { lot: cutLot("chicken leg bone"), destination: "refuse", weight: grams("1152") },
      { lot: cutLot("spent bones"), destination: "refuse", weight: grams("4000") },
    ],
    kept: [{ lot: cutLot("chicken stock"), weight: grams("4000"), lastDay: null }],
  });
  const ledger = keepLedger(scenario, decision);

  it("closes at 19,200 g bought and 4,000 g of water", () => {
    expect(weightsOf(ledger)).toEqual({
      purchased: "19200",
      onHand: "0",
      absorbed: "4000",
      inDishes: "9264",
      givenAway: "0",
      closingStock: "4000",
      wastedFood: "0",
      inedible: "7392",
      losses: "2544",
      avoidablePeel: "0",
    });
  });

  it("closes at 76.80", () => {
    expect(moneyOf(ledger)).toEqual({
      spent: "76.8",
      stockValue: "0",
      inDishes: "74.8",
      givenAway: "0",
      closingStock: "2",
      wasted: "0",
    });
  });

  it("credits legs with 25.92, wings with 5.76 and the carcass used with 2.00, and the breast bears 43.12", () => {
    expect(movementsOf(ledger, "item:chicken >")).toEqual([
      "item:chicken > part:chicken breast: 4800 g, 43.12 (joints for Friday dinner)",
      "item:chicken > part:chicken leg: 5760 g, 25.92 (joints for Friday dinner)",
      "item:chicken > part:chicken wing: 1920 g, 5.76 (joints for Friday dinner)",
      "item:chicken > part:chicken carcass: 5280 g, 2 (joints for Friday dinner)",
      "item:chicken > part:chicken fat: 960 g, 0 (joints for Friday dinner)",
      "item:chicken > loss:cutting: 480 g, 0 (joints for Friday dinner)",
    ]);
  });

  it("makes the stock carry the carcass credit, and nothing of what is thrown away", () => {
    expect(movementsOf(ledger, "pot of stock")).toEqual([
      "part:chicken carcass > part:chicken stock: 0 g, 2 (pot of stock for Friday dinner)",
      "water > part:chicken stock: 4000 g, 0 (pot of stock for Friday dinner)",
      "part:chicken carcass > part:spent bones: 4000 g, 0 (pot of stock for Friday dinner)",
    ]);
    expect(movementsOf(ledger, "> inedible:").every((line) => line.includes(" g, 0 ("))).toBe(true);
    expect(movementsOf(ledger, "> closingStock")).toEqual([
      "part:chicken stock > closingStock: 4000 g, 2 (kept for Monday soup)",
    ]);
  });

  it("costs 1.44 a plate of breast, 43.12 over 30", () => {
    const [breast, legs, wings] = ledger.dishCosts;
    expect(breast).toMatchObject({ dish: "roast breast", portions: 30, weight: grams("3600") });
    const plate = toCurrency(breast?.cost ?? money("0")).div(30);
    expect(plate.toFixed(4)).toBe("1.4373");
    expect(plate.toFixed(2)).toBe("1.44");
    expect(moneyText(legs?.cost ?? money("0"))).toBe("25.92");
    expect(moneyText(wings?.cost ?? money("0"))).toBe("5.76");
  });

  it("prints the two sides of the weight identity with one total", () => {
    const { purchased, onHand, absorbed, ...out } = ledger.weights;
    const { avoidablePeel: _, ...ends } = out;
    const printed = (weights: readonly Weight[]) => total(roundTogether(weights, grams("1000")));
    expect(gramsText(printed([purchased, onHand, absorbed]))).toBe("23000");
    expect(gramsText(printed(Object.values(ends)))).toBe("23000");
  });
});
