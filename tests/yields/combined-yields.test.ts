import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Decimal, grams, ONE } from "../../src/quantity/index.js";
import type { Basis } from "../../src/table-files/index.js";
import {
  loadYieldTables,
  type TableBreakdown,
  type TableItem,
  tablesWithTests,
  type YieldTest,
} from "../../src/yields/index.js";
import { yieldsAfterTests } from "../../src/yields/own-tests/combine.js";
import { summariseTests } from "../../src/yields/own-tests/summary.js";
import { isClosed } from "../../src/yields/own-tests/yield-test.js";
import { aYieldTest } from "../support/own-tests.js";
import { seededNumbers } from "../support/seeded-numbers.js";
import { aKitchen, weighed } from "./simulated-kitchens.js";

const { tables } = loadYieldTables();

function tabled(item: string, form: string, name: string): { item: TableItem; breakdown: TableBreakdown } {
  const entry = tables.items.find((each) => each.name === item && each.form === form);
  const breakdown = entry?.breakdowns.find((each) => each.name === name);
  if (entry === undefined || breakdown === undefined) throw new Error(`no ${name} of ${item} (${form})`);
  return { item: entry, breakdown };
}

const broccoli = tabled("broccoli", "untrimmed head", "florets");
const NAMES = broccoli.breakdown.parts.map(({ part }) => part);

/** A weighing of broccoli in grams: floret, stem, leaf, trim, and the loss. */
function aTest(
  weights: readonly [number, number, number, number],
  loss: number,
  stated: Partial<YieldTest> = {},
) {
  const parts = broccoli.breakdown.parts.map(({ part, class: partClass }, index) => ({
    part,
    weight: grams(String(weights[index] ?? 0)),
    class: partClass,
  }));
  return aYieldTest({
    form: "untrimmed head",
    units: 2,
    apWeight: grams(String(weights.reduce((sum, weight) => sum + weight, loss))),
    parts,
    loss: grams(String(loss)),
    ...stated,
  });
}

/** Invented: this kitchen gets 52 % florets where the tables have 61 %. */
const FIVE = [
  aTest([520, 250, 120, 100], 10, { date: "2026-09-28" }),
  aTest([510, 262, 117, 101], 10),
  aTest([535, 240, 118, 96], 11, { date: "2026-10-01" }),
  aTest([515, 255, 124, 97], 9, { date: "2026-10-02" }),
  aTest([522, 246, 121, 102], 9, { date: "2026-10-05" }),
];

const sumOf = ({ parts, loss }: TableBreakdown) =>
  Decimal.sum(loss, ...parts.map(({ fraction }) => fraction));

describe("a published breakdown after the kitchen's own tests", () => {
  it("lies between the two, nearer the tests the more of them there are", () => {
    const counts = [1, 2, 3, 5].map((count) => yieldsAfterTests(broccoli.breakdown, FIVE.slice(0, count)));
    const floret = counts.map(({ parts }) => parts[0]?.fraction.toNumber() ?? 0);
    for (const fraction of floret) expect(fraction > 0.52 && fraction < 0.61).toBe(true);
    const shares = counts.map(({ shares: each }) => each[0]?.testsCount ?? 0);
    expect(shares).toEqual([...shares].sort((left, right) => left - right));
    expect(floret).toEqual([...floret].sort((left, right) => right - left));
  });

  it("is weighed by the inverse of the variances and closed by them, as the closed form has it", () => {
    const { shares } = yieldsAfterTests(broccoli.breakdown, FIVE);
    const summary = summariseTests(FIVE);
    const expected = shares.map(({ of, published, publishedError }) => {
      const p = published.toNumber();
      const guess = Math.max(0.01, 0.1 * Math.sqrt(p * (1 - p))) / Math.sqrt(5);
      const { fraction = 0, standardError } = summary.shares.find((share) => share.of === of) ?? {};
      const tested = (4 * guess ** 2 + 4 * (standardError ?? 0) ** 2) / 8;
      const weights = { published: 1 / publishedError ** 2, tests: 1 / tested };
      const variance = 1 / (weights.published + weights.tests);
      const mean = (weights.published * p + weights.tests * fraction) * variance;
      return { testedError: Math.sqrt(tested), testsCount: weights.tests * variance, variance, mean };
    });
    const freedom = expected.reduce((sum, { variance }) => sum + variance, 0);
    const short = 1 - expected.reduce((sum, { mean }) => sum + mean, 0);
    expect(Math.abs(short)).toBeGreaterThan(0.001);
    expected.forEach(({ testedError, testsCount, variance, mean }, index) => {
      const share = shares[index];
      // All AP weights are within one percent of each other, so five tests count for nearly five.
      expect(share?.testedError).toBeCloseTo(testedError, 5);
      expect(share?.testsCount).toBeCloseTo(testsCount, 4);
      expect(share?.combined.toNumber()).toBeCloseTo(mean + (short * variance) / freedom, 4);
      expect(share?.standardError).toBeCloseTo(Math.sqrt(variance * (1 - variance / freedom)), 5);
    });
  });

  it("says in each row's source what counts for how much", () => {
    const { parts } = yieldsAfterTests(broccoli.breakdown, FIVE);
    expect(parts[0]).toMatchObject({ basis: "own test", tests: 5, keepsDays: 4, class: "food" });
    expect(parts[0]?.source).toBe(
      "own tests n=5 up to 2026-10-12, combined with 100 % less USDA SR28 11090 refuse 39 %: leaves, tough stalks, trimmings (tests count 91 %)",
    );
  });

  it("hands on how far the figure may be off, and the spread from unit to unit, which averages hide", () => {
    const random = seededNumbers(23);
    const spread = 0.06;
    const heads = 4;
    const tests = Array.from({ length: 300 }, () => {
      const florets = Array.from({ length: heads }, () =>
        Math.round(500 * (0.55 + (random() + random() + random() - 1.5) * 2 * spread)),
      );
      const floret = florets.reduce((sum, each) => sum + each, 0);
      return aTest([floret, 1700 - floret, 150, 140], 10, { units: heads });
    });
    const { parts, shares } = yieldsAfterTests(broccoli.breakdown, tests);
    expect(summariseTests(tests).shares[0]?.spread).toBeCloseTo(spread / 2, 2);
    expect(Math.abs((parts[0]?.spread?.toNumber() ?? 0) - spread)).toBeLessThan(0.004);
    parts.forEach(({ standardError }, index) => {
      expect(standardError?.toNumber()).toBeCloseTo(shares[index]?.standardError ?? 1, 6);
    });
  });

  it("takes a spread for granted at one test, and does not trust two that agree too much", () => {
    const [one] = FIVE;
    if (one === undefined) throw new Error("no test");
    const after = yieldsAfterTests(broccoli.breakdown, [one]);
    const usual = 0.1 * Math.sqrt(0.61 * 0.39);
    expect(after.parts[0]?.spread?.toNumber()).toBeCloseTo(usual, 6);
    expect(after.shares[0]?.testsCount).toBeCloseTo(0.5, 10);
    const { parts, shares } = yieldsAfterTests(broccoli.breakdown, [one, one]);
    expect(parts[0]?.spread?.toNumber()).toBeCloseTo(usual * Math.sqrt(4 / 5), 6);
    const [twins] = shares;
    expect(twins?.testsCount).toBeGreaterThan(0.6);
    expect(twins?.testsCount).toBeLessThan(0.8);
  });

  it("trusts a figure read in a source more than common practice, and one with a narrow spread more", () => {
    const counted = (changes: { basis?: Basis; spread?: Decimal }) => {
      const parts = broccoli.breakdown.parts.map((part) => ({ ...part, ...changes }));
      return yieldsAfterTests({ ...broccoli.breakdown, parts }, FIVE).shares[0]?.testsCount ?? 0;
    };
    expect(counted({ basis: "read" })).toBeLessThan(counted({ basis: "memory" }));
    expect(counted({ basis: "memory" })).toBeLessThan(counted({ basis: "common practice" }));
    expect(counted({ spread: new Decimal("0.02") })).toBeLessThan(counted({ basis: "read" }));
  });

  it("stays as published without a test", () => {
    expect(yieldsAfterTests(broccoli.breakdown, [])).toEqual({ ...broccoli.breakdown, shares: [] });
  });

  it("never changes what a part is fit for, whatever a test says", () => {
    const parts = broccoli.breakdown.parts.map((part) =>
      part.part === "broccoli leaf" ? { ...part, class: "never" as const } : part,
    );
    const eaten = FIVE.map((test) => ({
      ...test,
      parts: test.parts.map((part) => ({ ...part, class: "food" as const })),
    }));
    const after = yieldsAfterTests({ ...broccoli.breakdown, parts }, eaten);
    expect(after.parts.map((part) => part.class)).toEqual(["food", "food", "never", "inedible"]);
  });

  it("keeps a part that no test found, and no loss where there never was one", () => {
    const leafless = Array.from({ length: 30 }, () => ({
      ...aTest([600, 300, 0, 100], 0),
      apWeight: grams("1002"),
    }));
    const withoutLoss = {
      ...broccoli.breakdown,
      loss: new Decimal(0),
      parts: broccoli.breakdown.parts.map((part, index) =>
        index === 0 ? { ...part, fraction: part.fraction.plus(broccoli.breakdown.loss) } : part,
      ),
    };
    const after = yieldsAfterTests(withoutLoss, leafless);
    expect(after.parts[2]?.fraction.gt(0)).toBe(true);
    expect(after.parts[2]?.fraction.lt("0.02")).toBe(true);
    expect(after.loss.toString()).toBe("0");
    expect(sumOf(after).toString()).toBe("1");
  });

  it("refuses a test that weighs another part, or lacks one", () => {
    const stray = aTest([520, 250, 120, 100], 10);
    const renamed = stray.parts.map((part) => ({ ...part, part: part.part.replace("leaf", "blade") }));
    expect(() => yieldsAfterTests(broccoli.breakdown, [{ ...stray, parts: renamed }])).toThrow(
      new RangeError("florets gives no broccoli blade, which a test of 2026-10-12 weighs"),
    );
    const without = stray.parts.filter(({ part }) => part !== "broccoli leaf");
    expect(() => yieldsAfterTests(broccoli.breakdown, [{ ...stray, parts: without }])).toThrow(
      new RangeError("no test weighs broccoli leaf"),
    );
  });

  it("adds up to one exactly, to the millionth, for any tests that have weight", () => {
    const weight = fc.integer({ min: 0, max: 3000 });
    const tests = fc.array(
      fc
        .tuple(fc.integer({ min: 1, max: 3000 }), weight, weight, weight, weight)
        .map(([floret, stem, leaf, trim, loss]) => aTest([floret, stem, leaf, trim], loss)),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(tests, (own) => {
        const after = yieldsAfterTests(broccoli.breakdown, own);
        expect(sumOf(after).eq(ONE)).toBe(true);
        for (const { part, fraction } of after.parts) {
          expect(NAMES).toContain(part);
          expect(fraction.gt(0) && fraction.decimalPlaces() <= 6).toBe(true);
        }
        expect(after.loss.gte(0)).toBe(true);
        for (const { testsCount } of after.shares) expect(testsCount > 0 && testsCount < 1).toBe(true);
      }),
    );
  });
});

describe("tables with the kitchen's own tests", () => {
  it("change the breakdown that was tested and nothing else", () => {
    const own = tablesWithTests(tables, [...FIVE, { ...aTest([1, 1, 1, 1], 0), item: "moon rock" }]);
    const changed = own.items.flatMap((item, index) =>
      item.breakdowns
        .filter((breakdown, place) => breakdown !== tables.items[index]?.breakdowns[place])
        .map(({ name }) => `${item.name} (${item.form}), ${name}`),
    );
    expect(changed).toEqual(["broccoli (untrimmed head), florets"]);
    const { shares, ...after } = yieldsAfterTests(broccoli.breakdown, FIVE);
    expect(shares).toHaveLength(5);
    const found = own.items.find(({ name, form }) => name === "broccoli" && form === "untrimmed head");
    expect(found?.breakdowns[0]).toEqual(after);
    expect({ ...own, items: [] }).toEqual({ ...tables, items: [] });
  });
});

// The median over the series with five tests and more is what the defaults rest on.
describe("the default spread", () => {
  it("is that of the USDA Table of Cooking Yields for Meat and Poultry (2014), in units of sqrt(p (1 - p))", () => {
    const ratios = tables.cooking
      .flatMap(({ fraction, spread, tests }) => {
        const p = fraction.toNumber();
        return spread === null || tests === null || tests < 5 || p >= 1
          ? []
          : [spread.toNumber() / Math.sqrt(p * (1 - p))];
      })
      .sort((left, right) => left - right);
    expect(ratios.length).toBeGreaterThan(50);
    expect(Math.abs((ratios[Math.floor(ratios.length / 2)] ?? 0) - 0.1)).toBeLessThan(0.01);
  });
});

describe("simulated kitchens", () => {
  const COUNTS = [0, 1, 2, 4, 8, 16, 32] as const;
  const breakdowns = tables.items
    .flatMap((item) =>
      item.breakdowns
        .filter(({ parts }) => parts.length > 2)
        .map((breakdown) => ({ item, breakdown }))
        .slice(0, 1),
    )
    .filter((_, index) => index % 2 === 0);

  /** Mean error in percent of the weight bought, by number of tests: combined, and the tests alone. */
  function errors(seed: number, kitchenFactor: number, testSpread: number) {
    const next = seededNumbers(seed);
    const combined = COUNTS.map(() => 0);
    const testsAlone = COUNTS.map(() => 0);
    let within = 0;
    let shares = 0;
    for (const { item, breakdown } of breakdowns) {
      const kitchen = aKitchen(item, breakdown, kitchenFactor, next);
      const tests = Array.from({ length: 32 }, (_, index) => weighed(kitchen, index + 1, testSpread, next));
      expect(tests.every(isClosed)).toBe(true);
      COUNTS.forEach((count, place) => {
        const after = yieldsAfterTests(breakdown, tests.slice(0, count));
        const found = [...after.parts.map(({ fraction }) => fraction.toNumber()), after.loss.toNumber()];
        const perShare = 100 / (kitchen.truth.length * breakdowns.length);
        kitchen.truth.forEach((truth, index) => {
          const share = after.shares[index];
          combined[place] = (combined[place] ?? 0) + Math.abs((found[index] ?? 0) - truth) * perShare;
          if (share === undefined) return;
          testsAlone[place] = (testsAlone[place] ?? 0) + Math.abs(share.tested - truth) * perShare;
          shares += 1;
          if (Math.abs((found[index] ?? 0) - truth) < 2 * share.standardError) within += 1;
        });
      });
    }
    return { combined, testsAlone, coverage: within / shares };
  }

  it.each([
    [101, 0.1, 0.1],
    [102, 0.2, 0.1],
    [103, 0.3, 0.1],
    [104, 0.2, 0.2],
    [105, 0.05, 0.05],
  ])("seed %i, kitchens %f off, tests %f: the error falls with every doubling", (seed, kitchen, test) => {
    const { combined } = errors(seed, kitchen, test);
    combined.slice(1).forEach((error, index) => {
      expect(error, `${combined.join(", ")}`).toBeLessThan(combined[index] ?? 0);
    });
    expect(combined.at(-1)).toBeLessThan((combined[0] ?? 0) / 2);
  });

  it("seed 106: few tests with the published figure beat few tests alone, and two errors cover the truth", () => {
    const { combined, testsAlone, coverage } = errors(106, 0.12, 0.1);
    for (const place of [1, 2, 3]) expect(combined[place]).toBeLessThan(testsAlone[place] ?? 0);
    expect(coverage).toBeGreaterThan(0.9);
  });
});
