import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { recut } from "../../src/insight/risk/recutting.js";
import { type DishRisk, riskOf } from "../../src/insight/risk/risk.js";
import { layOut } from "../../src/insight/risk/simulation.js";
import type { Decision, Scenario, Spread } from "../../src/kitchen/index.js";
import { Decimal, times } from "../../src/quantity/index.js";
import { scenarioOf } from "../support/examples.js";
import { decisionFor } from "../support/plans.js";
import { marrowBake } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

const DRAWS = 10_000;
const spread = (ofUnits: number, ofFigure: number): Spread => ({
  ofUnits: new Decimal(ofUnits),
  ofFigure: new Decimal(ofFigure),
});
const NONE = spread(0, 0);

/** The scenario with these spreads in every item and breakdown. */
function withSpreads(scenario: Scenario, unitSpread: Spread, yieldSpread: Spread): Scenario {
  return {
    ...scenario,
    steps: scenario.steps.map((step) => ({ ...step, yieldSpread: NONE })),
    items: scenario.items.map((item) => ({
      ...item,
      unitSpread,
      breakdowns: item.breakdowns.map((breakdown) => ({ ...breakdown, yieldSpread })),
    })),
  };
}

/** 47 portions of 200 g take 9,400 g of dice: 12 marrows of 1,000 g that give 800 g each. */
const marrows = scenarioOf(marrowBake({ portions: 47 }));
const NEED = 9.4 - 0.0005;

async function only(scenario: Scenario, decision?: Decision, seed = 1): Promise<DishRisk> {
  const { dishes } = riskOf(decision ?? (await decisionFor(scenario, engines)), scenario, {
    seed,
    draws: DRAWS,
  });
  const [dish] = dishes;
  if (dish === undefined || dishes.length !== 1) throw new Error("not one dish");
  return dish;
}

/** Phi(z) by the series of Abramowitz and Stegun 26.2.10 (from memory). */
function normalBelow(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 1; n < 200; n++) {
    term *= -(z * z) / (2 * n);
    sum += term / (2 * n + 1);
  }
  return 0.5 + sum / Math.sqrt(2 * Math.PI);
}

/** The chance of at least `least` of `of` trials: the binomial sum. */
function binomialAtLeast(least: number, of: number, chance: number): number {
  let sum = 0;
  for (let hits = least; hits <= of; hits++) {
    let ways = 1;
    for (let each = 0; each < hits; each++) ways *= (of - each) / (each + 1);
    sum += ways * chance ** hits * (1 - chance) ** (of - hits);
  }
  return sum;
}

const errorOf = (chance: number): number => Math.sqrt((chance * (1 - chance)) / DRAWS);

describe("the chance that one dish of one item falls short", () => {
  it.each([0.05, 0.15, 0.3])("is the normal one where unit weights spread by %d", async (each) => {
    // The weight of 12 marrows is normal with mean 12 kg and deviation sqrt(12) x spread: sums of normals are normal.
    const { chanceShort } = await only(withSpreads(marrows, spread(each, 0), NONE));
    const exact = normalBelow((NEED / 0.8 - 12) / (each * Math.sqrt(12)));
    expect(Math.abs(chanceShort - exact)).toBeLessThan(3 * errorOf(exact));
  });

  it("is the binomial sum where the yield of the figure spreads", async () => {
    // The share is beta with a + b = 24 and a = 0.8 x 24 = 19.2, so another percent: 75 % of a + b = 24 is 18 and 6.
    // I_x(18, 6) is the chance of at least 18 hits of 23 (Abramowitz and Stegun 26.5.24, from memory).
    const text = marrowBake({ portions: 44 })
      .replace("dice: 800 g", "dice: 750 g")
      .replace("weight: 180 g", "weight: 230 g");
    const scenario = withSpreads(scenarioOf(text), NONE, spread(0, Math.sqrt(1 / 25)));
    const { chanceShort } = await only(scenario);
    const exact = binomialAtLeast(18, 23, (8.8 - 0.0005) / 12);
    expect(Math.abs(chanceShort - exact)).toBeLessThan(3 * errorOf(exact));
  });

  it("comes with the mean of the missing portions", async () => {
    // E[max(0, need - X)] of a normal X is (need - mean) Phi(z) + deviation x phi(z), z = (need - mean) / deviation:
    // the newsvendor's expected shortage (from memory).
    const { expectedShort, mostShort } = await only(withSpreads(marrows, spread(0.15, 0), NONE));
    const deviation = 0.8 * 0.15 * Math.sqrt(12);
    const z = (9.4 - 9.6) / deviation;
    const exact =
      ((9.4 - 9.6) * normalBelow(z) + (deviation * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI)) / 0.2;
    expect(Math.abs(expectedShort - exact)).toBeLessThan((3 * deviation) / 0.2 / Math.sqrt(DRAWS));
    expect(mostShort).toBeCloseTo((9.4 - 9.6 + 1.645 * deviation) / 0.2, 0);
  });

  it("is none where nothing spreads", async () => {
    const { chanceShort, expectedShort, more } = await only(withSpreads(marrows, NONE, NONE));
    expect([chanceShort, expectedShort]).toEqual([0, 0]);
    expect(more.map(({ units }) => units)).toEqual([[], [], []]);
  });
});

describe("cutting again", () => {
  async function columns(
    scenario: Scenario,
    units: number,
  ): Promise<{ mean: number[]; deviation: number[] }> {
    const planned = await decisionFor(scenario, engines);
    const decision = cutting(planned, units / 12);
    const { values } = recut(layOut(decision, scenario), scenario, 5, DRAWS);
    const parts = [0, 1].map((column) => values.filter((_, index) => index % 2 === column));
    const mean = parts.map((part) => part.reduce((sum, value) => sum + value, 0) / DRAWS);
    const deviation = parts.map((part, index) =>
      Math.sqrt(part.reduce((sum, value) => sum + (value - (mean[index] ?? 0)) ** 2, 0) / (DRAWS - 1)),
    );
    return { mean, deviation };
  }
  /** The same plan for so many times as many units. */
  function cutting(decision: Decision, factor: number): Decision {
    return {
      ...decision,
      cuts: decision.cuts.map((cut) => ({
        ...cut,
        units: (cut.units ?? 0) * factor,
        weight: times(cut.weight, factor),
      })),
    };
  }

  it.each([
    [12, spread(0.2, 0), NONE],
    [12, NONE, spread(0.1, 0)],
    [12, NONE, spread(0, 0.1)],
    [48, spread(0.1, 0.05), spread(0.1, 0.15)],
  ])("gives the mean and the spread put in: %d units", async (units, ofWeight, ofYield) => {
    const { mean, deviation } = await columns(withSpreads(marrows, ofWeight, ofYield), units);
    const varianceOf = ({ ofUnits, ofFigure }: Spread): number =>
      ofUnits.toNumber() ** 2 / units + ofFigure.toNumber() ** 2;
    [0.8, 0.18].forEach((share, index) => {
      // Relative variances of independent factors add up, but for their product, which is too small to be seen here.
      const relative = varianceOf(ofWeight) + (varianceOf(ofYield) * (1 - share)) / share;
      const exact = units * share * Math.sqrt(relative);
      expect(Math.abs((mean[index] ?? 0) - units * share)).toBeLessThan((4 * exact) / Math.sqrt(DRAWS));
      // The standard error of a deviation, with room for the tails of a skew share.
      expect(Math.abs((deviation[index] ?? 0) / exact - 1)).toBeLessThan(6 / Math.sqrt(2 * DRAWS));
    });
  });

  it("averages out from unit to unit, and not the error of the figure", async () => {
    const relative = async (each: Spread, units: number): Promise<number> => {
      const { mean, deviation } = await columns(withSpreads(marrows, each, NONE), units);
      return (deviation[0] ?? 0) / (mean[0] ?? 1);
    };
    expect((await relative(spread(0.2, 0), 12)) / (await relative(spread(0.2, 0), 1200))).toBeCloseTo(10, 0);
    expect((await relative(spread(0, 0.2), 12)) / (await relative(spread(0, 0.2), 1200))).toBeCloseTo(1, 1);
  });

  it("never gives more or less than was cut", async () => {
    const scenario = withSpreads(marrows, NONE, spread(0.3, 0.3));
    const layout = layOut(await decisionFor(scenario, engines), scenario);
    const { values } = recut(layout, scenario, 3, 500);
    for (let draw = 0; draw < 500; draw++) {
      const [dice = 0, peel = 0] = values.subarray(2 * draw, 2 * draw + 2);
      expect(dice).toBeGreaterThan(0);
      expect(dice + peel).toBeLessThanOrEqual(12 + 1e-9);
    }
  });
});

describe("seeds", () => {
  it("give the same figures again, and others the same within their error", async () => {
    const scenario = withSpreads(marrows, spread(0.15, 0.05), spread(0.1, 0.1));
    const decision = await decisionFor(scenario, engines);
    const risks = [1, 1, 2, 3].map((seed) => riskOf(decision, scenario, { seed, draws: DRAWS }));
    expect(risks[0]).toEqual(risks[1]);
    const chances = risks.map(({ dishes }) => dishes[0]?.chanceShort ?? 0);
    expect(new Set(chances).size).toBe(3);
    for (const chance of chances)
      expect(Math.abs(chance - (chances[0] ?? 0))).toBeLessThan(4 * Math.SQRT2 * errorOf(chance));
  });
});

describe("more units", () => {
  it("are the fewest with which the chance is reached, by the normal and by another seed", async () => {
    const scenario = withSpreads(marrows, spread(0.3, 0), NONE);
    const decision = await decisionFor(scenario, engines);
    const { more } = await only(scenario, decision);
    const chanceOf = (units: number): number =>
      1 - normalBelow((NEED / 0.8 - units) / (0.3 * Math.sqrt(units)));
    for (const { level, units } of more) {
      let fewest = 12;
      while (chanceOf(fewest) < level) fewest++;
      const bought = units?.[0]?.orderUnits ?? 0;
      expect(bought).toBe(fewest - 12);
      const [first] = decision.cuts;
      if (first === undefined) throw new Error("nothing is cut");
      const extra = {
        ...first,
        units: bought,
        weight: times(scenario.items[0]?.unitWeight ?? first.weight, bought),
      };
      const surer = { ...decision, cuts: bought === 0 ? [first] : [first, extra] };
      const { chanceShort } = await only(scenario, surer, 77);
      expect(1 - chanceShort).toBeGreaterThan(level - 3 * errorOf(level));
    }
  });

  it("are never more than as many again", async () => {
    const { more } = await only(withSpreads(marrows, spread(0, 0.6), NONE));
    // A delivery off by 60 % of its mean: with twice as many its chance is still Phi((24 - 11.75) / (24 x 0.6)) = 0.80.
    expect(more.map(({ units }) => units)).toEqual([null, null, null]);
    expect(Math.abs((more[0]?.chance ?? 0) - normalBelow((24 - NEED / 0.8) / (24 * 0.6)))).toBeLessThan(0.03);
  });

  it("are not found where the item is not bought", async () => {
    const text = marrowBake({ portions: 47 }).replace(
      "price: 1.60 / head",
      "buy: no\n    on_hand: {amount: 12 head}",
    );
    const { more } = await only(withSpreads(scenarioOf(text), spread(0.15, 0), NONE));
    expect(more.at(-1)?.units).toBeNull();
  });
});

describe("what falls short", () => {
  const twoDishes = (second: string) => `scenario: Two meals
currency: EUR
services:
  - {name: Lunch, date: 2026-10-08, sitting: lunch}
  - {name: Dinner, date: 2026-10-08, sitting: dinner}
items:
  marrow:
    price: 1.60 / marrow
    unit_weight: 1000 g
    keeps: 3 days
    cut: [rings]
    breakdowns:
      rings: {parts: {ring: 400 g, dice: 400 g, peel: {weight: 200 g, class: inedible}}}
steps: {dice the rings: {from: marrow ring, gives: {marrow dice: 100 %}}}
dishes:
  lunch dish: {services: Lunch, portions: 20, lines: [{amount: 200 g, from: marrow ring}]}
  dinner dish: {services: Dinner, portions: ${second}, lines: [{amount: 200 g, from: marrow dice}]}
`;

  it("is the later service's first, and its dish is filled up by a further step as far as there is something over", async () => {
    // 20 x 200 g of rings take 10 marrows, which give as much dice: both dishes use all, or dinner leaves half.
    const chances = async (second: string): Promise<number[]> => {
      const scenario = withSpreads(scenarioOf(twoDishes(second)), spread(0, 0.1), NONE);
      const { dishes } = riskOf(await decisionFor(scenario, engines), scenario, { draws: 2_000 });
      return dishes.map(({ chanceShort }) => chanceShort);
    };
    const [lunch = 0, dinner = 1] = await chances("10");
    expect(lunch).toBeGreaterThan(0.4);
    expect(dinner).toBeLessThan(0.001);
    const [, both = 0] = await chances("20");
    expect(both).toBeGreaterThan(0.4);
  });

  it("is filled up from what was to be left over before it goes there", async () => {
    const text = twoDishes("24").replace("portions: 20", "portions: 10");
    const scenario = withSpreads(scenarioOf(text), spread(0, 0.05), NONE);
    const decision = await decisionFor(scenario, engines);
    const { dishes } = riskOf(decision, scenario, { draws: 2_000 });
    // 34 portions are 6,800 g of rings and dice together: 9 marrows, 7,200 g. Short below 94.4 % of that.
    expect(decision.cuts.reduce((sum, { units }) => sum + (units ?? 0), 0)).toBe(9);
    const exact = normalBelow((6.8 / 7.2 - 1) / 0.05);
    expect(Math.abs((dishes[1]?.chanceShort ?? 0) - exact)).toBeLessThan(
      3 * Math.sqrt((exact * (1 - exact)) / 2_000),
    );
    expect(dishes[0]?.chanceShort).toBe(0);
  });

  it("is nothing that is counted in pieces", async () => {
    const text = twoDishes("10")
      .replace("      rings: {parts", "      rings: {pieces: {ring: 4}, parts")
      .replace("amount: 200 g, from: marrow ring", "amount: 2 each, from: marrow ring");
    const scenario = withSpreads(scenarioOf(text), spread(0, 0.3), NONE);
    const { dishes } = riskOf(await decisionFor(scenario, engines), scenario, { draws: 500 });
    expect(dishes[0]?.chanceShort).toBe(0);
    expect(dishes[1]?.chanceShort).toBeGreaterThan(0);
  });
});
