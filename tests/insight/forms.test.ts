import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { formChoiceSchema } from "../../src/contract/index.js";
import { lowestNotWorth } from "../../src/insight/forms/ways.js";
import { planFormChoice } from "../../src/insight/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planningWith } from "../../src/planning/index.js";
import { Decimal, grams, money, NO_MONEY } from "../../src/quantity/index.js";
import { pricedForms } from "../../src/yields/index.js";
import { scenarioOf } from "../support/examples.js";

const FILE = fileURLToPath(new URL("../plan/cases/two-forms-of-one-item.yaml", import.meta.url));
const engines = new Engines();
afterAll(() => engines.close());

const both = scenarioOf(readFileSync(FILE, "utf8"));
const bakeOnly: Scenario = { ...both, dishes: both.dishes.filter(({ name }) => name === "bake") };
/** Six minutes for a head, two for a heart. */
const timed = (scenario: Scenario, wage: string): Scenario => ({
  ...scenario,
  wage: money(wage),
  items: scenario.items.map((item) => ({
    ...item,
    breakdowns: item.breakdowns.map((each) => ({
      ...each,
      minutes: new Decimal(item.name === "marrow" ? 6 : 2),
    })),
  })),
});

const planning = planningWith(engines);

async function choiceOf(scenario: Scenario, wanted = ["marrow dice"]) {
  return formChoiceSchema.parse(await planFormChoice("marrow", wanted, scenario, planning, { seconds: 10 }));
}

const told = ({ plans }: Awaited<ReturnType<typeof choiceOf>>) =>
  plans?.breakEvens.map(({ item, instead, beside }) => ({
    item,
    instead: instead.price ?? instead.verdict,
    beside: beside.price ?? beside.verdict,
  }));

/**
 * Of a marrow for 2.00 half is dice; of a heart of 440 g for 1.80, 400 g are. The bake takes 900 g of dice, the
 * soup 300 g of leaf, which a head gives (tests/plan/two-forms.test.ts).
 */
describe("which form to buy, by usable weight", () => {
  it("costs a kilogram of dice: 2.00 / 0.5 = 4.00 of a head, 1.80 / 0.44 / (400 / 440) = 4.50 of a heart", async () => {
    const [head, heart] = (await choiceOf(bakeOnly)).forms;
    expect(head).toMatchObject({ item: "marrow", usable: "0.5", usableCost: "4", overCheapest: "0" });
    expect(heart).toMatchObject({
      item: "marrow heart",
      usable: "0.909091",
      usableCost: "4.5",
      overCheapest: "0.5",
    });
    // A heart's 400 g at 4.00 a kilogram: 1.60; a head's 500 g at 4.50: 2.25.
    expect([head?.breakEven?.price, heart?.breakEven?.price].map(Number)).toEqual([2.25, 1.6]);
  });

  it("counts hands: at 15.00 an hour a head takes 1.50 more and a heart 0.50", async () => {
    const scenario = timed(bakeOnly, "15");
    const [heart, head] = pricedForms("marrow", ["marrow dice"], scenario);
    expect(heart?.usableCost.toNumber()).toBeCloseTo(2.3 / 0.4, 12);
    expect(head?.usableCost.toNumber()).toBeCloseTo(7, 12);
    // 3.50 / 0.5 = 7.00 a kilogram is 2.80 for the heart's 400 g, less its 0.50 of hands.
    expect(heart?.breakEven?.price.toNumber()).toBeCloseTo(2.3, 12);
    // A head's 500 g at 5.75 is 2.875; less its price of 2.00, 0.875 buys 3.5 min.
    expect(head?.breakEven?.minutesPerKilogram?.toNumber()).toBeCloseTo(3.5, 12);
  });

  it("counts leaf where it is wanted too: 2.00 / 0.8 = 2.50 of a head", () => {
    const [head] = pricedForms("marrow", ["marrow dice", "marrow leaf"], both);
    expect(head?.usableCost.toNumber()).toBe(2.5);
  });
});

/**
 * Invented, by the kilogram: untrimmed at 1.00 gives 610 g of floret and 200 g of stem, or 460 and 360 cut short;
 * a crown at 0.90 gives 600 and 340. Stem is credited at 1.00.
 */
const CUT_SHORT = `scenario: Two cuts
currency: EUR
costing: trim credit
services: [{name: Lunch, date: 2026-10-08}]
items:
  marrow:
    form: untrimmed
    price: 1.00 / kg
    breakdowns:
      long: {parts: {floret: 610 g, stem: 200 g, trim: {weight: 190 g, class: inedible}}}
      short: {parts: {floret: 460 g, stem: 360 g, trim: {weight: 180 g, class: inedible}}}
  crown:
    of: marrow
    form: crown
    price: 0.90 / kg
    breakdowns: {short: {parts: {floret: 600 g, stem: 340 g, trim: {weight: 60 g, class: inedible}}}}
parts: {marrow stem: {credit: 1.00 / kg}}
dishes: {bake: {portions: 10, lines: [{amount: 100 g, from: marrow floret}]}}
`;

describe("which form to buy, by usable weight, where a form is cut in several ways", () => {
  it("breaks even by the cut that is cheapest at that price", () => {
    const [, untrimmed] = pricedForms("marrow", ["marrow floret"], scenarioOf(CUT_SHORT));
    expect(untrimmed).toMatchObject({ item: { name: "marrow" }, breakdown: "long" });
    // A crown's floret costs 0.56 / 0.6; of that 0.46 kg, with 0.36 of credit, is 0.789; cut long it would be 0.769.
    const expected = (0.56 / 0.6) * 0.46 + 0.36;
    expect(untrimmed?.breakEven?.perKilogram.toNumber()).toBeCloseTo(expected, 12);
    const first = (price: string) =>
      pricedForms(
        "marrow",
        ["marrow floret"],
        scenarioOf(CUT_SHORT.replace("1.00 / kg\n    breakdowns", `${price} / kg\n    breakdowns`)),
      )[0]?.item.name;
    expect([first("0.789"), first("0.790")]).toEqual(["marrow", "crown"]);
  });
});

describe("which form to buy, by plans", () => {
  it("needs heads for the leaf; hearts beside one head pay below the second head's 2.00", async () => {
    const choice = await choiceOf(both);
    expect(told(choice)).toEqual([
      { item: "marrow", instead: "needed", beside: "needed" },
      { item: "marrow heart", instead: "no plan", beside: "2.00" },
    ]);
    expect(choice.plans?.ways.map(({ item, outcome, figures }) => [item, outcome, figures?.waste])).toEqual([
      ["marrow", "plan", "400"],
      ["marrow heart", "no plan", undefined],
      [null, "plan", "0"],
    ]);
    // One head and one heart, 3.80 for 1,200 g of food, all of it used.
    expect(choice.plans?.ways[2]?.figures).toMatchObject({
      netSpend: "3.80",
      used: "1200",
      costPerUsed: "3.1667",
    });
  });

  it("is found where the credits of trim are above what a form costs", async () => {
    // The leaf that one head gives the soup is credited at 3.00, and the head costs 2.00.
    const credited: Scenario = {
      ...both,
      costing: "trim credit",
      parts: both.parts.map((part) =>
        part.name === "marrow leaf" ? { ...part, marketValue: money("10") } : part,
      ),
    };
    const choice = await choiceOf(credited);
    expect(told(choice)?.[1]).toMatchObject({ beside: "2.00" });
    expect(choice.plans?.ways[2]).toMatchObject({ outcome: "plan" });
  });

  it("proves that a form alone is over a ceiling, whatever the others would cost", async () => {
    // Hearts alone: 1.80 / 0.4 kg is 4.50 a kilogram of dice, 0.405 for the 90 g of a portion; heads 0.36.
    const capped: Scenario = {
      ...bakeOnly,
      dishes: bakeOnly.dishes.map((dish) => ({ ...dish, ceiling: money("0.40") })),
    };
    const ways = (await choiceOf(capped)).plans?.ways;
    expect(ways?.map(({ item, outcome }) => [item, outcome])).toEqual([
      ["marrow", "plan"],
      ["marrow heart", "no plan"],
      [null, "plan"],
    ]);
  });

  it("counts as used what the house had, and not as unused what of that is wasted", async () => {
    // One heart and 500 g in the house make the bake; 300 g of leaf in the house go to waste.
    const held = (part: string, weight: string) => ({
      part,
      weight: grams(weight),
      value: NO_MONEY,
      useBy: null,
      lastDay: null,
    });
    const stocked: Scenario = {
      ...bakeOnly,
      aim: "cost",
      partsOnHand: [held("marrow dice", "500"), held("marrow leaf", "300")],
    };
    const heart = (await choiceOf(stocked)).plans?.ways[1]?.figures;
    expect(heart).toMatchObject({ netSpend: "1.80", used: "900", costPerUsed: "2" });
  });

  it("counts whole units: three hearts against two heads, and one of each against either", async () => {
    // Hearts alone: 3p < 4.00 up to 1.33. A heart beside a head: 2.00 + p < 4.00.
    // Heads alone against three hearts at 1.80: 2q < 5.40. A head beside a heart: q + 1.80 < 5.40.
    expect(told(await choiceOf(bakeOnly))).toEqual([
      { item: "marrow", instead: "2.70", beside: "3.60" },
      { item: "marrow heart", instead: "1.34", beside: "2.00" },
    ]);
  });

  it("counts hands at the wage in every plan", async () => {
    // Two heads cost 4.00 and 12 min at 15.00 an hour: 7.00. Hearts alone: 3p + 1.50 < 7.00 up to 1.83.
    // A heart beside a head: 2.00 + 1.50 + p + 0.50 < 7.00.
    const choice = await choiceOf(timed(bakeOnly, "15"));
    expect(told(choice)?.[1]).toEqual({ item: "marrow heart", instead: "1.84", beside: "3.00" });
    expect(choice.plans?.ways[0]?.figures).toMatchObject({ minutes: "12", wageCost: "3" });
  });

  it("says a price that a plan on either side bears out", async () => {
    const choice = await choiceOf(bakeOnly);
    const cost = async (hundredths: number, heartsOnly: boolean) => {
      const priced: Scenario = {
        ...bakeOnly,
        aim: "cost",
        wage: NO_MONEY,
        items: bakeOnly.items.map((item) => {
          if (item.buying === null) return item;
          if (item.name === "marrow") return heartsOnly ? { ...item, buying: null } : item;
          return { ...item, buying: { ...item.buying, price: money(new Decimal(hundredths).div(100)) } };
        }),
      };
      const found = await planning.again(priced, { seconds: 10 });
      return found.kind === "plan" ? found.objective : Number.POSITIVE_INFINITY;
    };
    const heart = choice.plans?.breakEvens[1];
    const price = (text: string | null | undefined) => Math.round(Number(text) * 100);
    for (const [at, heartsOnly] of [
      [price(heart?.instead.price), true],
      [price(heart?.beside.price), false],
    ] as const) {
      expect(await cost(at - 1, heartsOnly)).toBeLessThan(4 - 1e-3);
      expect(await cost(at, heartsOnly)).toBeGreaterThanOrEqual(4 - 1e-6);
    }
  });
});

describe("the search for a break-even", () => {
  const seed = 20261008;

  it(`finds what trying every hundredth finds, for any least cost that never falls: seed ${seed}`, async () => {
    // Plans buy so many units and cost so much beside; over some price a ceiling may leave none.
    const plans = fc.array(
      fc.record({ units: fc.integer({ min: 0, max: 9 }), rest: fc.integer({ min: 0, max: 4000 }) }),
      {
        minLength: 1,
        maxLength: 5,
      },
    );
    await fc.assert(
      fc.asyncProperty(
        plans,
        fc.integer({ min: 1, max: 4000 }),
        fc.nat(3000),
        fc.option(fc.nat(500)),
        async (some, limit, start, barred) => {
          let asked = 0;
          const at = (price: number) => {
            if (barred !== null && price > barred)
              return { cost: Number.POSITIVE_INFINITY, units: 0, proved: true };
            const costs = some.map(({ units, rest }) => ({
              units,
              cost: (units * price + rest) / 100,
              proved: true,
            }));
            return costs.reduce((least, each) => (each.cost < least.cost ? each : least));
          };
          const most = limit + 1;
          const found = await lowestNotWorth(
            async (price) => {
              asked++;
              return at(price);
            },
            limit / 100,
            start,
            most,
          );
          const worth = Array.from({ length: most + 1 }, (_, price) => at(price).cost < limit / 100 - 1e-5);
          const first = worth.indexOf(false);
          expect(found).toEqual(
            first === -1
              ? { kind: "any", proved: true }
              : first === 0
                ? { kind: "never", proved: true }
                : { kind: "below", hundredths: first, proved: true },
          );
          expect(asked).toBeLessThanOrEqual(20);
        },
      ),
      { seed, numRuns: 400 },
    );
  });

  it("gives up where a plan is not made in the time, and says where one is not proved", async () => {
    expect(await lowestNotWorth(async () => null, 4, 100, 401)).toEqual({ kind: "unknown", proved: false });
    const open = async (price: number) => ({ cost: price / 100, units: 1, proved: false });
    expect(await lowestNotWorth(open, 4, 100, 401)).toEqual({
      kind: "below",
      hundredths: 400,
      proved: false,
    });
  });
});
