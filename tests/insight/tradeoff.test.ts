import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { type Curve, type PlanAgain, tradeoffCurve } from "../../src/insight/index.js";
import { unbeaten } from "../../src/insight/tradeoff.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { CostingError } from "../../src/ledger/index.js";
import { planningWith } from "../../src/planning/index.js";
import { grams, money, NO_MONEY, toCurrency, toGrams } from "../../src/quantity/index.js";
import { bruteForceFront } from "../support/brute-force-front.js";
import { example, scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { smallScenarios } from "../support/random-scenario.js";
import { dishOf, lineOf } from "../support/small-scenario.js";
import { TWO_LEEKS } from "../support/two-leeks.js";

const engines = new Engines();
afterAll(() => engines.close());

async function curveOf(scenario: Scenario, plans = 40, seconds = 60): Promise<Curve | null> {
  const result = await tradeoffCurve(scenario, planningWith(engines), {
    plans,
    seconds,
  });
  return result.kind === "curve" ? result.curve : null;
}

const inLedger = ({ values: { waste, netSpend } }: PlanAgain) => ({
  waste: toGrams(waste).toNumber(),
  spend: toCurrency(netSpend).toNumber(),
});
const counted = ({ counted: { waste, cost } }: PlanAgain) => ({ waste: waste * 1000, spend: cost });

/** Four plans by the arithmetic beside it. Peel beyond the thriftiest form's own is judged form by form: none. */
const twoForms = scenarioOf(TWO_LEEKS);

const FOUR = [
  { waste: 0, spend: 4.8 },
  { waste: 160, spend: 4.2 },
  { waste: 320, spend: 3.6 },
  { waste: 480, spend: 3 },
];

describe("the curve from least waste to least spend", () => {
  it("has the four plans of two forms of one item, as worked by hand and by trying everything", async () => {
    const curve = await curveOf(twoForms);
    expect(curve?.plans.map(inLedger)).toEqual(FOUR);
    expect(curve).toMatchObject({ complete: true, stoppedBy: null });
    expect(
      curve?.plans.map(({ plan }) => plan.purchases.map(({ item, units }) => `${units} ${item}`)),
    ).toEqual([["3 trimmed leek"], ["1 leek", "2 trimmed leek"], ["2 leek", "1 trimmed leek"], ["3 leek"]]);
    expect(bruteForceFront(twoForms)).toEqual(FOUR);
  });

  it("lies evenly between its ends where fewer plans are asked for, and says that there are more", async () => {
    const three = await curveOf(twoForms, 3);
    expect(three?.plans.map(inLedger)).toEqual([FOUR[0], FOUR[2], FOUR[3]]);
    expect(three).toMatchObject({ complete: false, stoppedBy: "number of plans" });
    const two = await curveOf(twoForms, 2);
    expect(two?.plans.map(inLedger)).toEqual([FOUR[0], FOUR[3]]);
  });

  it("is one plan where the same is least in both", async () => {
    const only = { ...twoForms, items: twoForms.items.slice(0, 1) };
    const dishes = [dishOf("tart", 3, [lineOf(200, ["leek white"])])];
    const curve = await curveOf({ ...only, dishes });
    expect(curve?.plans.map(inLedger)).toEqual([FOUR[3]]);
    expect(curve?.complete).toBe(true);
  });

  it("credits what is kept at its stated value", async () => {
    // The green is kept for stock at 2.00 / kg: 0.32 a leek, and nothing is wasted. Untrimmed 0.68, trimmed 1.60; but
    // 250 g may be kept: 160 g of one, then 90 g of the next: 3 x 1.00 - 0.50 with 230 g wasted, and so on.
    const carry = { use: "stock", limit: grams("250"), valuePerKilogram: money("2") };
    const parts = twoForms.parts.map((part) =>
      part.name === "leek green" ? { ...part, carry, keepsDays: null } : part,
    );
    const curve = await curveOf({ ...twoForms, parts });
    expect(curve?.plans.map(inLedger)).toEqual([
      { waste: 0, spend: 1 - 0.32 + 3.2 },
      { waste: 70, spend: 2 - 0.5 + 1.6 },
      { waste: 230, spend: 3 - 0.5 },
    ]);
  });

  it("is what trying everything finds, on small scenarios", { timeout: 60_000 }, async () => {
    let plans = 0;
    let longest = 0;
    for (const [index, { scenario: drawn, grain }] of fc
      .sample(smallScenarios(), { numRuns: 80, seed: 49 })
      .entries()) {
      const scenario = plain(drawn);
      const front = bruteForceFront(scenario, grain);
      const curve = await curveOf(scenario);
      const found = curve?.plans.map(counted) ?? [];
      const where = `scenario ${index}: ${JSON.stringify({ front, found })}`;
      if (curve !== null) expect(curve.complete, where).toBe(true);
      const steps = { waste: (curve?.steps.waste ?? 0) * 1000, spend: curve?.steps.cost ?? 0 };
      for (const point of front)
        expect(
          found.some((other) => isNoWorse(other, point, steps)),
          where,
        ).toBe(true);
      for (const point of found)
        expect(
          front.some((other) => isAt(point, other)),
          where,
        ).toBe(true);
      plans += found.length;
      longest = Math.max(longest, found.length);
    }
    expect(plans).toBeGreaterThan(30);
    expect(longest).toBeGreaterThanOrEqual(4);
  });

  it("has the six plans of fennel by the case, each certified and balanced, none beaten by another", async () => {
    // One portion of broth more takes 3 oz of stalk, 85 g, and 0.30 of staples, from 12 portions to 17: what is over of
    // the case stays whole, and there is no more stalk.
    const scenario = example("us-units");
    const curve = await curveOf(scenario);
    const plans = curve?.plans ?? [];
    expect(curve?.complete).toBe(true);
    expect(plans).toHaveLength(6);
    expect(unbeaten(plans, scenario)).toEqual(plans);
    for (const { plan } of plans) {
      expect(plan.outcome.certified).toBe(true);
      expectBalanced(plan);
    }
    plans
      .map(inLedger)
      .slice(1)
      .forEach((figure, index) => {
        const before = plans.map(inLedger)[index];
        expect(figure.waste - (before?.waste ?? 0)).toBeCloseTo(3 * 28.349523125, 0);
        expect((before?.spend ?? 0) - figure.spend).toBeCloseTo(0.3, 3);
      });
  });

  it("keeps the plan it has where the other end is not found, and asks on where the first is not at once", async () => {
    const planning = planningWith(engines);
    const unknown = { kind: "unknown", why: "no time" } as const;
    const asked: string[] = [];
    const result = await tradeoffCurve(
      twoForms,
      {
        ...planning,
        again: async (scenario, options) => {
          asked.push(scenario.aim);
          return asked.length === 2 ? planning.again(scenario, options) : unknown;
        },
      },
      { plans: 12, seconds: 20 },
    );
    expect(asked).toEqual(["waste", "waste", "cost"]);
    expect(result).toMatchObject({
      kind: "curve",
      curve: { complete: false, stoppedBy: "a proof not reached" },
    });
    expect(result.kind === "curve" ? result.curve.plans.map(inLedger) : []).toEqual([FOUR[0]]);
  });

  it("tells whoever asks that the credits of trim do not fit any plan", async () => {
    // Legs, wings and carcasses of a bird of 0.50 are credited with 33.68 for twelve of them.
    const scenario = example("trim-credit");
    const items = scenario.items.map((item) => ({
      ...item,
      buying: item.buying && { ...item.buying, price: money("0.50") },
    }));
    await expect(curveOf({ ...scenario, items })).rejects.toThrow(CostingError);
  });
});

/** Without ceilings, which the ledger judges, and without a value on what is kept. */
function plain(scenario: Scenario): Scenario {
  const free = <Kept extends Scenario["parts"][number] | Scenario["items"][number]>(each: Kept): Kept => ({
    ...each,
    carry: each.carry === null ? null : { ...each.carry, valuePerKilogram: NO_MONEY },
  });
  return {
    ...scenario,
    parts: scenario.parts.map(free),
    items: scenario.items.map(free),
    dishes: scenario.dishes.map((dish) => ({ ...dish, ceiling: null })),
  };
}

type Point = ReturnType<typeof inLedger>;

function isNoWorse(one: Point, other: Point, steps: Point): boolean {
  return one.waste <= other.waste + steps.waste + 1e-3 && one.spend <= other.spend + steps.spend + 1e-6;
}

/** What the second stage may leave of the first aim aside. */
function isAt(one: Point, other: Point): boolean {
  return Math.abs(one.waste - other.waste) <= 0.51 && Math.abs(one.spend - other.spend) <= 1e-3;
}
