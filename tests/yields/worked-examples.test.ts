import { describe, expect, it } from "vitest";
import { Decimal, grams, roundUpToStep } from "../../src/quantity/index.js";
import {
  apWeightFor,
  breakEvenPrice,
  butchersTest,
  compareForms,
  cookingLossTest,
  type FormOffer,
  loadYieldTables,
  portionsIn,
  usableCost,
  type YieldTest,
} from "../../src/yields/index.js";
import { gapOf, isClosed } from "../../src/yields/own-tests/yield-test.js";
import { byProducts, cutOff, decimal, percent, pounds } from "../support/published-cards.js";

// Figures typed in from the published examples named beside each check. Every print has its own rounding rule.

const FREE = decimal(0);
const GRAMS_PER_POUND = decimal("453.59237");
const roundedUp = (value: Decimal, places: number): string => value.toFixed(places, Decimal.ROUND_UP);

describe("USDA Food Buying Guide, Appendix B: how much watermelon to buy", () => {
  it("2 lb of dice at 0.61 lb a pound take 3.28 lb, bought in half pounds as 3.5 lb", () => {
    const needed = apWeightFor(1, decimal(2), decimal("0.61"));
    expect(needed.toFixed(2)).toBe("3.28");
    const inHalves = roundUpToStep(grams(needed.times(GRAMS_PER_POUND)), grams(GRAMS_PER_POUND.div(2)));
    expect(decimal(inHalves.toString()).div(1000).div(GRAMS_PER_POUND).toFixed(1)).toBe("3.5");
  });

  it("100 quarter cups at 6.10 a pound take 16.40 lb: printed rounded up to the tenth", () => {
    expect(roundedUp(apWeightFor(100, decimal(1), decimal("6.10")), 1)).toBe("16.4");
  });
});

describe("a state guide on the Food Buying Guide (azrefs.org): apples by the case", () => {
  it("40 lb of 163 apples: 0.2453 lb and 0.89 cup each, both cut off; counted as 0.75 cup, down to the quarter", () => {
    const apple = decimal(40).div(163);
    expect(cutOff(apple, 4)).toBe("0.2453");
    const cups = apple.times("3.66");
    expect(cutOff(cups, 2)).toBe("0.89");
    expect(portionsIn(cups, decimal("0.25")).count * 0.25).toBe(0.75);
  });
});

describe("training slides on the Food Buying Guide (L. Greenwood, docstoc 7283305)", () => {
  it("460 half cups of corn, 3.0 cans for 100 quarter cups: 27.6 cans", () => {
    const cups = decimal("0.25").times(100).div("3.0");
    const cans = apWeightFor(460, decimal("0.5"), cups).toDecimalPlaces(20);
    expect(cans.toString()).toBe("27.6");
  });

  it("230 two-ounce servings of minced beef, 8.5 lb for 100 ounces: 39.1 lb", () => {
    expect(apWeightFor(230, decimal(2), decimal(100).div("8.5")).toFixed(20)).toBe(
      decimal("39.1").toFixed(20),
    );
  });

  it("a pound that cooks to 0.74 lb gives 11.8 ounces, 7.89 servings of 1 1/2, and 8.5 lb make 100 ounces", () => {
    const cooked = cookingLossTest({
      apWeight: decimal(16),
      apPrice: decimal(1),
      trimmed: [],
      cuttingLoss: decimal(0),
      rawWeight: decimal(16),
      cookedWeight: decimal("11.84"),
      carved: [],
      carvingLoss: decimal(0),
      servedWeight: decimal("11.84"),
      portionWeight: decimal(1),
    });
    expect(cooked.cookingYield.toString()).toBe("0.74");
    const ounces = cooked.cookingYield.times(16);
    expect(cutOff(ounces, 1)).toBe("11.8");
    expect(ounces.div("1.5").toFixed(2)).toBe("7.89");
    expect(roundedUp(apWeightFor(100, decimal(1), ounces), 1)).toBe("8.5");
  });

  it("75 ears at 2.44 a pound: 30.74 lb; by the column for 100, 41.0 lb rounded up, 30.75 lb (slidegur 41081)", () => {
    expect(apWeightFor(75, decimal(1), decimal("2.44")).toFixed(2)).toBe("30.74");
    const forHundred = roundedUp(apWeightFor(100, decimal(1), decimal("2.44")), 0);
    expect(decimal(forHundred).times(75).div(100).toString()).toBe("30.75");
  });
});

describe("USDA SR28, its documentation (sr28_doc.pdf) and part splits", () => {
  it("25 kcal in 100 g with 61 % refuse: 44.2 kcal in a pound as purchased (formula of p. 5; recomputed)", () => {
    const { fractions } = butchersTest({
      apWeight: decimal(100),
      apPrice: decimal(1),
      byProducts: byProducts(["leaf stalks, cores and trimmings", 61, 0]),
      cuttingLoss: decimal(0),
      usableWeight: decimal(39),
      portionWeight: null,
    });
    expect(fractions.usable.times("4.536").times(25).toFixed(1)).toBe("44.2");
  });

  it.each([
    ["cantaloupe 09181", 49, [39, 9, 1]],
    ["sweet corn 11167", 64, [35, 29]],
    ["rhubarb 09307, leaves toxic", 25, [19, 6]],
    ["apple without skin 09004", 23, [10, 13]],
  ])("%s: the parts printed make the refuse printed, %i %%", (_, refuse, parts) => {
    const { fractions } = butchersTest({
      apWeight: decimal(100),
      apPrice: decimal(1),
      byProducts: parts.map((weight, index) => ({
        name: `part ${index}`,
        weight: decimal(weight),
        price: FREE,
      })),
      cuttingLoss: decimal(0),
      usableWeight: decimal(100 - refuse),
      portionWeight: null,
    });
    expect(percent(fractions.usable).toString()).toBe(String(100 - refuse));
  });

  it("pineapple 09266: 8 + 16 + 26 is printed as 49 %, a misprint of one", () => {
    const card = () =>
      butchersTest({
        apWeight: decimal(100),
        apPrice: decimal(1),
        byProducts: byProducts(["core", 8, 0], ["crown", 16, 0], ["parings", 26, 0]),
        cuttingLoss: decimal(0),
        usableWeight: decimal(51),
        portionWeight: null,
      });
    expect(card).toThrow(/^1 of 100 is too much/);
  });
});

describe("USDA ERS, Fruit and Vegetable Prices 2022: two forms of cauliflower", () => {
  const offer = (form: string, price: string, usable: string): FormOffer => ({
    form,
    price: decimal(price),
    usable: decimal(usable),
    trimCredit: FREE,
    minutes: FREE,
  });
  const heads = offer("heads", "2.1841", "0.8926");
  const florets = offer("florets", "3.8022", "0.9702");

  it("heads win: 0.6743 against 1.0800 a cup of 0.2756 lb, within the 0.0006 of rounded yields", () => {
    const [first, second] = compareForms([florets, heads], FREE);
    expect(first?.offer.form).toBe("heads");
    expect(first?.usableCost.times("0.2756").minus("0.6743").abs().lt("0.0006")).toBe(true);
    expect(second?.usableCost.times("0.2756").minus("1.0800").abs().lt("0.0006")).toBe(true);
  });

  it("florets break even at 2.3740 a pound (recomputed)", () => {
    const price = breakEvenPrice(florets, heads, FREE);
    expect(price.toFixed(4)).toBe("2.3740");
    expect(usableCost({ ...florets, price }, FREE).toFixed(20)).toBe(usableCost(heads, FREE).toFixed(20));
  });
});

describe("a leg of lamb weighed in its parts (clovegarden.com, lamb leg)", () => {
  // 11 1/2 lb: meat 5 lb 4 oz, bones 1 lb 12 oz, fat 2 lb 13 oz, scraps 1 lb 8 oz; "liquid loss" is not weighed.
  // Misprint: the meat is 45 % of the leg, not 35.
  const weight = (whole: number, ounces: number) => grams(pounds(whole, ounces).times(GRAMS_PER_POUND));
  const leg: YieldTest = {
    item: "lamb",
    form: "leg, shank on",
    breakdown: "boned",
    supplier: "unknown",
    date: "2010-01-01",
    number: 1,
    units: 1,
    apWeight: weight(11, 8),
    parts: [
      { part: "lamb meat", weight: weight(5, 4), class: "food" },
      { part: "lamb bones", weight: weight(1, 12), class: "inedible" },
      { part: "lamb fat", weight: weight(2, 13), class: "food" },
      { part: "lamb scraps", weight: weight(1, 8), class: "food" },
    ],
    loss: grams("0"),
    scaleStep: weight(0, 1),
  };

  it("is short of three ounces: more than five readings of an ounce scale explain", () => {
    const gap = decimal(gapOf(leg).toString()).div(1000);
    expect(gap.div(GRAMS_PER_POUND).times(16).toFixed(3)).toBe("3.000");
    expect(isClosed(leg)).toBe(false);
    expect(isClosed({ ...leg, loss: weight(0, 3) })).toBe(true);
  });

  it("is 45, 15, 24 and 13 %, cut off", () => {
    const shares = leg.parts.map((part) => decimal(part.weight.toString()).div(leg.apWeight.toString()));
    expect(shares.map((share) => cutOff(percent(share), 0))).toEqual(["45", "15", "24", "13"]);
  });
});

// Journal of Cookery Science of Japan 45(3), 204 (2012), abstract: fifty vegetables cut conventionally and for use.
describe("thrifty against conventional cutting", () => {
  it("gains about the 9.1 points of fifty vegetables, with more to eat from most of them", () => {
    const gains = loadYieldTables()
      .tables.items.filter(({ handling }) => handling === "plant")
      .map(({ breakdowns }) =>
        breakdowns.map(({ parts }) =>
          Decimal.sum(0, ...parts.filter((part) => part.class === "food").map(({ fraction }) => fraction)),
        ),
      )
      .filter((edible) => edible.length > 1)
      .map((edible) => Decimal.max(...edible).minus(Decimal.min(...edible)));
    expect(gains.length).toBeGreaterThanOrEqual(50);
    const mean = percent(Decimal.sum(...gains).div(gains.length));
    expect(mean.minus("9.1").abs().lt(3), mean.toFixed(2)).toBe(true);
    expect(gains.filter((gain) => gain.gt(0)).length / gains.length).toBeGreaterThan(0.7);
  });
});
