import { describe, expect, it } from "vitest";
import type { CostingName } from "../../src/kitchen/index.js";
import { keepLedger } from "../../src/ledger/index.js";
import {
  Decimal,
  grams,
  type Money,
  money,
  roundTogether,
  scale,
  splitByShares,
  toCurrency,
  toGrams,
  total,
  type Weight,
} from "../../src/quantity/index.js";
import { butchersTest } from "../../src/yields/index.js";
import { gramsText, moneyOf } from "../support/ledger-checks.js";
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
  cutLot,
} from "../support/nouns.js";

// Figures typed in from the published examples named beside each check.

/** International avoirdupois pound (international yard and pound agreement, 1959; from memory). */
const GRAMS_PER_POUND = new Decimal("453.59237");
const pounds = (count: string | number): Weight => grams(GRAMS_PER_POUND.times(count));
const inPounds = (weight: Weight): Decimal => toGrams(weight).div(GRAMS_PER_POUND);
const decimal = (text: string | number): Decimal => new Decimal(text);
/** A printed figure that was cut off, not rounded. */
const truncated = (value: Decimal, places: number): string => value.toFixed(places, Decimal.ROUND_DOWN);

describe("butcher test card, lamb loin: an exercise of a standard cost-control text (6.3), as completed by a student", () => {
  const card = butchersTest({
    apWeight: decimal(12),
    apPrice: decimal("6.65"),
    byProducts: [
      { name: "fat", weight: decimal(3), price: decimal(0) },
      { name: "kidneys", weight: decimal(1), price: decimal("6.10") },
      { name: "flanks", weight: decimal("1.5"), price: decimal("4.60") },
    ],
    cuttingLoss: decimal("0.5"),
    usableWeight: decimal(6),
    portionWeight: decimal(5).div(16),
  });

  it("leaves 66.80 of 79.80 on 6 lb: 11.13 a pound, 0.70 an ounce, 3.48 a five-ounce portion", () => {
    expect(card.apCost.toFixed(2)).toBe("79.80");
    expect(card.credits.map((credit) => credit.toFixed(2))).toEqual(["0.00", "6.10", "6.90"]);
    expect(card.usableCost.toFixed(2)).toBe("66.80");
    expect(card.usablePrice.toFixed(2)).toBe("11.13");
    expect(card.usablePrice.div(16).toFixed(2)).toBe("0.70");
    expect(card.portionCost?.toFixed(2)).toBe("3.48");
  });

  it("has cost factors of 1.67 a pound and 0.52 a portion", () => {
    expect(card.costFactor.toFixed(2)).toBe("1.67");
    expect(card.portionCostFactor?.toFixed(2)).toBe("0.52");
  });

  it("splits as 25, 8.33, 12.5, 4.17 and 50 %", () => {
    const { byProducts, cuttingLoss, usable } = card.fractions;
    const percents = [...byProducts, cuttingLoss, usable].map((part) => part.times(100).toDecimalPlaces(2));
    expect(percents.map(String)).toEqual(["25", "8.33", "12.5", "4.17", "50"]);
  });
});

/** A plain yield test: what is trimmed off is worth nothing. */
function trimmed(apWeight: string, trim: string, usable: string, apPrice: string) {
  return butchersTest({
    apWeight: decimal(apWeight),
    apPrice: decimal(apPrice),
    byProducts: [{ name: "trim", weight: decimal(trim), price: decimal(0) }],
    cuttingLoss: decimal(0),
    usableWeight: decimal(usable),
    portionWeight: null,
  });
}

describe("BCcampus, Basic Kitchen and Food Service Management (CC BY 4.0), yield testing", () => {
  // The tuna's printed 300 mL of brine is a slip: its own later figures take 400 mL as usable, so 350 mL of brine.
  it.each([
    ["tenderloin", "2500", "750", "1750", "70.00", "1.42"],
    ["sockeye salmon", "7750", "2750", "5000", "64.51", "1.55"],
    ["canned tuna", "750", "350", "400", "53.33", "1.875"],
  ])(
    "%s: yield and cost factor as printed, cut off and not rounded",
    (_, ap, trim, usable, percent, factor) => {
      const result = trimmed(ap, trim, usable, "1");
      expect(truncated(result.fractions.usable.times(100), 2)).toBe(percent);
      expect(truncated(result.costFactor, decimal(factor).decimalPlaces())).toBe(factor);
    },
  );

  it("1 kg of carrots peeled to 800 g is 80 %", () => {
    expect(trimmed("1000", "200", "800", "1").fractions.usable.toString()).toBe("0.8");
  });

  it("a 5 kg roast at 8.00/kg, trimmed to 4 kg, costs 40.00 and so 10.00/kg", () => {
    const roast = trimmed("5", "1", "4", "8.00");
    expect(roast.apCost.toFixed(2)).toBe("40.00");
    expect(roast.usablePrice.toFixed(2)).toBe("10.00");
  });
});

describe("yield percent, both ways", () => {
  const overYield = (wanted: Weight, yieldFraction: string) => scale(wanted, decimal(1).div(yieldFraction));

  it("Bakery and Business Math (openwa.pressbooks.pub), ch. 25: zucchini, strawberries, pears", () => {
    expect(inPounds(scale(pounds(3), decimal("0.95"))).toFixed(2)).toBe("2.85");
    expect(gramsText(scale(grams("5000"), decimal("0.87")))).toBe("4350");
    expect(
      inPounds(overYield(pounds(2), "0.78"))
        .times(16)
        .toFixed(2),
    ).toBe("41.03");
  });

  it("math25.net, Percent Facts: 10 lb of potatoes at 78 % is 7.8 lb", () => {
    expect(inPounds(scale(pounds(10), decimal("0.78"))).toFixed(1)).toBe("7.8");
  });

  it("professional-cooking text, excerpts: cabbage, green beans, Brussels sprouts", () => {
    expect(inPounds(overYield(pounds(20), "0.79")).toFixed(1)).toBe("25.3");
    expect(inPounds(scale(pounds(20), decimal("0.88"))).toFixed(1)).toBe("17.6");
    expect(inPounds(scale(pounds(10), decimal("0.8"))).toFixed(0)).toBe("8");
    expect(inPounds(overYield(pounds(10), "0.8")).toFixed(1)).toBe("12.5");
  });
});

describe("a new price by the cost factor (excerpt of a cost-control text)", () => {
  it("1.70 x 4.65 is printed as 7.91, half up", () => {
    const usable = money(decimal("1.70").times("4.65"));
    expect(usable).toBe(money("7.905"));
    expect(toCurrency(total(roundTogether([usable], money("0.01")))).toFixed(2)).toBe("7.91");
  });
});

describe("USDA ERS, Fruit and Vegetable Prices 2022: price of a cup is retail price x cup size / yield", () => {
  it.each([
    ["cauliflower heads", "2.1841", "0.8926", "0.2756", "0.6743"],
    ["cauliflower florets", "3.8022", "0.9702", "0.2756", "1.0800"],
    ["acorn squash", "1.2136", "0.4586", "0.4519", "1.1961"],
  ])("%s, within the 0.0006 that the printed yields allow", (_, price, yieldFraction, cup, printed) => {
    const { usablePrice } = trimmed("1", decimal(1).minus(yieldFraction).toString(), yieldFraction, price);
    expect(usablePrice.times(cup).minus(printed).abs().lessThan("0.0006")).toBe(true);
  });
});

describe("holt.blue MTH 81, ch. 9: a portion's cost is not rounded before it is multiplied", () => {
  it("200 portions of 6 fl oz of soup at 22.94 a case cost 23.90, not 24.00", () => {
    // 12 cans a case, each makes 0.75 gal of 128 fl oz: 0.0199 a fl oz, 0.1195 a portion.
    const fluidOunce = decimal("22.94").div(decimal(12).times("0.75").times(128));
    expect(fluidOunce.toFixed(4)).toBe("0.0199");
    const portion = fluidOunce.times(6);
    expect(portion.toFixed(4)).toBe("0.1195");
    const scenario = aScenario({
      services: [aService("Friday")],
      items: [],
      parts: [],
      dishes: [aDish("soup", [], [aStaple("soup", portion)])],
    });
    const [soup] = keepLedger(scenario, aDecision({ cookings: [aCooking("soup", 200)] })).dishCosts;
    expect(toCurrency(soup?.cost ?? money("0")).toFixed(2)).toBe("23.90");
  });
});

describe("joint cost of a chicken (a published solution in the manner of Horngren, ch. 16)", () => {
  const PARTS: readonly [part: string, weight: number, price: string][] = [
    ["breasts", 100, "0.55"],
    ["wings", 20, "0.20"],
    ["thighs", 40, "0.35"],
    ["bones", 80, "0.10"],
    ["feathers", 10, "0.05"],
  ];
  const DESTROYED: Readonly<Record<string, number>> = { breasts: 40, wings: 15 };

  /** All parts count as products, as the example has it; 40 lb of breast and 15 lb of wing are destroyed. */
  function chicken(costing: CostingName) {
    const scenario = aScenario({
      costing,
      services: [aService("Friday")],
      items: [
        anItem({
          name: "chicken",
          unitWeight: pounds(250),
          breakdowns: [
            aBreakdown(
              "joints",
              Object.fromEntries(PARTS.map(([part, weight]) => [part, `${weight}/250`])),
              "0",
            ),
          ],
        }),
      ],
      parts: PARTS.map(([part, , price]) =>
        aPart(part, "food", { marketValue: money(decimal(price).times(1000).div(GRAMS_PER_POUND)) }),
      ),
      dishes: [
        aDish(
          "sold",
          PARTS.map(([part]) => aLine("1", part)),
        ),
      ],
    });
    const weights = splitByShares(
      pounds(250),
      PARTS.map(([, weight]) => BigInt(weight)),
    );
    const parts = PARTS.map(([part], index) => ({ part, weight: weights[index] ?? grams("0") }));
    const destroyed = Object.entries(DESTROYED).map(([part, weight]) => ({ part, weight: pounds(weight) }));
    const decision = aDecision({
      purchases: [{ item: "chicken", service: 0, orderUnits: 1, weight: pounds(250), cost: money("50") }],
      cuts: [
        {
          item: "chicken",
          breakdown: "joints",
          service: 0,
          units: 1,
          weight: pounds(250),
          parts,
          loss: grams("0"),
        },
      ],
      goings: parts.map(({ part, weight }, line) => {
        const gone = destroyed.find((other) => other.part === part)?.weight ?? grams("0");
        return aGoing(cutLot(part), "sold", grams(toGrams(weight).minus(toGrams(gone))), { line });
      }),
      cookings: [aCooking("sold", 1)],
      sends: destroyed.map(({ part, weight }) => ({ lot: cutLot(part), destination: "refuse", weight })),
    });
    const ledger = keepLedger(scenario, decision);
    const costs = PARTS.map(([part]) =>
      total(ledger.transfers.filter(({ to }) => to === `part:${part}`).map((transfer) => transfer.money)),
    );
    return { costs, ledger };
  }

  const cents = (amounts: readonly Money[]) =>
    roundTogether(amounts, money("0.01")).map((figure) => toCurrency(figure).toFixed(2));

  it("by sales value: 33.74, 2.45, 8.59, 4.91 and 0.31", () => {
    // Printed: 33.75, 2.45, 8.60, 4.90 and 0.30, the shares having been rounded to three places before use.
    expect(cents(chicken("sales value").costs)).toEqual(["33.74", "2.45", "8.59", "4.91", "0.31"]);
  });

  it("gives the printed figures when its shares are rounded to three places as in print", () => {
    const values = PARTS.map(([, weight, price]) => decimal(price).times(weight));
    const sum = Decimal.sum(...values);
    expect(sum.toFixed(2)).toBe("81.50");
    const shares = values.map((value) => value.div(sum).toDecimalPlaces(3));
    expect(shares.map(String)).toEqual(["0.675", "0.049", "0.172", "0.098", "0.006"]);
    expect(cents(splitByShares(money("50"), shares))).toEqual(["33.75", "2.45", "8.60", "4.90", "0.30"]);
  });

  it("by sales value: what was destroyed had cost 15.34", () => {
    expect(decimal(moneyOf(chicken("sales value").ledger).wasted ?? "0").toFixed(2)).toBe("15.34");
  });

  it("by physical weight: 0.20 a pound for all, and 11 destroyed", () => {
    const { costs, ledger } = chicken("edible weight");
    expect(cents(costs)).toEqual(["20.00", "4.00", "8.00", "16.00", "2.00"]);
    expect(decimal(moneyOf(ledger).wasted ?? "0").toFixed(2)).toBe("11.00");
  });
});

describe("Oklahoma Department of Agriculture: a 1,000 lb steer", () => {
  it("430 lb of retail cuts are the printed pounds, and add up exactly", () => {
    expect(inPounds(scale(pounds(1000), decimal("0.61"))).toFixed(0)).toBe("610");
    const retail = pounds(430);
    const percents = [24, 9, 8, 4, 9, 7, 25, 6, 4, 4].map(BigInt);
    const cuts = splitByShares(retail, percents);
    expect(cuts.map((weight) => inPounds(weight).toFixed(1))).toEqual([
      "103.2",
      "38.7",
      "34.4",
      "17.2",
      "38.7",
      "30.1",
      "107.5",
      "25.8",
      "17.2",
      "17.2",
    ]);
    expect(total(cuts)).toBe(retail);
  });
});

describe("Canadian Nutrient File: a whole chicken, 500 g as purchased", () => {
  it("gives 128 g of light and 176 g of dark meat with skin, 304 g in all, 60.8 %", () => {
    const edible: Readonly<Record<string, string>> = {
      breast: "96",
      wing: "32",
      back: "65",
      leg: "111",
      giblets: "25",
      neck: "17",
    };
    const parts = Object.entries(edible).map(([part, weight]) => ({ part, weight: grams(weight) }));
    const bone = { part: "bone", weight: grams("154") };
    const scenario = aScenario({
      services: [aService("Friday")],
      items: [
        anItem({ name: "chicken", unitWeight: grams("500"), breakdowns: [aBreakdown("boned", {}, "1")] }),
      ],
      parts: [...parts.map(({ part }) => aPart(part)), aPart("bone", "inedible")],
      dishes: [
        aDish("light meat", [aLine("64", ["breast", "wing"])]),
        aDish("dark meat", [aLine("88", ["back", "leg"])]),
        aDish("gravy", [aLine("21", ["giblets", "neck"])]),
      ],
    });
    const dishOf: Readonly<Record<string, string>> = {
      breast: "light meat",
      wing: "light meat",
      back: "dark meat",
      leg: "dark meat",
    };
    const { weights, dishCosts } = keepLedger(
      scenario,
      aDecision({
        purchases: [{ item: "chicken", service: 0, orderUnits: 1, weight: grams("500"), cost: money("3") }],
        cuts: [
          {
            item: "chicken",
            breakdown: "boned",
            service: 0,
            units: 1,
            weight: grams("500"),
            parts: [...parts, bone],
            loss: grams("0"),
          },
        ],
        goings: parts.map(({ part, weight }) => aGoing(cutLot(part), dishOf[part] ?? "gravy", weight)),
        cookings: [aCooking("light meat", 2), aCooking("dark meat", 2), aCooking("gravy", 2)],
        sends: [{ lot: cutLot("bone"), destination: "refuse", weight: bone.weight }],
      }),
    );
    const [light, dark, gravy] = dishCosts.map(({ weight }) => weight);
    expect([light, dark, gravy]).toEqual([grams("128"), grams("176"), grams("42")]);
    const meatAndSkin = total([light ?? grams("0"), dark ?? grams("0")]);
    expect(gramsText(meatAndSkin)).toBe("304");
    expect(toGrams(meatAndSkin).div(500).times(100).toFixed(1)).toBe("60.8");
    expect(gramsText(weights.inedible)).toBe("154");
  });
});
