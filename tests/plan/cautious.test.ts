import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { decisionOf, decodePlan, planSchema } from "../../src/contract/index.js";
import { onFullYields, riskOf, withLowered } from "../../src/insight/index.js";
import { cautiousWords, writingFor } from "../../src/pages/index.js";
import { planCautiously } from "../../src/planning/index.js";
import { Decimal } from "../../src/quantity/index.js";
import { example, scenarioOf } from "../support/examples.js";
import { decisionFor } from "../support/plans.js";
import { marrowBake } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

const DRAWS = 4_000;
const plan = async (scenario: ReturnType<typeof scenarioOf>, level: number) =>
  (await planCautiously(scenario, { engines, seconds: 10, level, risk: { draws: DRAWS } })).plan;

describe("planning cautiously", () => {
  it.each([0.8, 0.95])("has every dish with the chance asked, %d, by another seed too", async (level) => {
    for (const scenario of [scenarioOf(marrowBake({ portions: 47 })), example("smallest")]) {
      const cautious = planSchema.parse(await plan(scenario, level));
      expect(cautious.risk?.cautious?.reached).toBe(true);
      const { dishes } = riskOf(decisionOf(cautious, scenario), scenario, { seed: 99, draws: DRAWS });
      const error = Math.sqrt((level * (1 - level)) / DRAWS);
      for (const { chanceShort } of dishes) expect(1 - chanceShort).toBeGreaterThan(level - 4 * error);
      const { objective, bound, kind } = cautious.outcome;
      expect(kind).toBe("feasible");
      expect(Number(objective)).toBeGreaterThanOrEqual(Number(bound));
      // What is stated as waste is what the ledger has.
      expect(Number(objective)).toBe(Number(cautious.waste.counted));
    }
  });

  it("buys no more for less", async () => {
    const units = async (level: number): Promise<number> =>
      (await plan(scenarioOf(marrowBake({ portions: 47 })), level)).purchases.reduce(
        (sum, each) => sum + each.units,
        0,
      );
    const [half, most] = [await units(0.5), await units(0.99)];
    expect(half).toBeLessThanOrEqual(most);
    expect(most).toBeGreaterThan(12);
  });

  it("gives the surest plan where a ceiling stands in the way, and says so", async () => {
    // 12 marrows at 1.60 and 4.70 of cream are 0.509 a plate: 0.52 leaves room for waste, which no plate bears, but
    // not for yields so low that more than 12 marrows would be planned into dishes.
    const scenario = scenarioOf(marrowBake({ portions: 47, ceiling: "0.52" }));
    const surest = await plan(scenario, 0.99);
    expect(surest.risk?.cautious?.reached).toBe(false);
    expect(cautiousWords(decodePlan(surest), writingFor(scenario))[0]).toMatch(
      /^99% was asked and not reached/,
    );
  });
});

describe("yields lowered for planning", () => {
  it("close, and give back on full yields what was taken off", async () => {
    const scenario = scenarioOf(marrowBake({ portions: 40 }));
    const lowered = withLowered(scenario, new Map([["marrow", new Decimal("0.2")]]));
    const [breakdown] = lowered.items[0]?.breakdowns ?? [];
    expect(breakdown?.yields.map(({ fraction }) => fraction.toNumber())).toEqual([0.64, 0.144]);
    expect(breakdown?.loss.toNumber()).toBeCloseTo(0.216, 12);
    // 8,000 g at 640 g each: 13 marrows, which give 10,400 g of dice on full yields: 2,400 g over.
    const full = onFullYields(await decisionFor(lowered, engines), scenario);
    expect(full.cuts.map(({ units, parts }) => [units, parts[0]?.weight])).toEqual([[13, 10_400_000n]]);
    const over = full.sends.filter(({ lot }) => lot.part === "marrow dice");
    expect(over.reduce((sum, { weight }) => sum + weight, 0n)).toBe(2_400_000n);
  });
});
