import { describe, expect, it } from "vitest";
import { grams, milligrams } from "../../src/quantity/index.js";
import type { YieldTest } from "../../src/yields/index.js";
import { LOSS, summariseTests, testsByCutting } from "../../src/yields/own-tests/summary.js";
import { aYieldTest } from "../support/own-tests.js";
import { seededNumbers } from "../support/seeded-numbers.js";
import { normal } from "./simulated-kitchens.js";

const FLESH = "swede flesh";
const PEEL = "swede peel";

/** A weighing of a swede (invented): a fraction of flesh, the rest peel, to the milligram. */
function aTest(flesh: number, stated: Partial<YieldTest> = {}): YieldTest {
  const apWeight = stated.apWeight ?? grams("1000");
  const weight = milligrams(BigInt(Math.round(flesh * Number(apWeight))));
  const parts: YieldTest["parts"] = [
    { part: FLESH, weight, class: "food" },
    { part: PEEL, weight: milligrams(apWeight - weight), class: "inedible" },
  ];
  const named = { item: "swede", form: "whole", breakdown: "peeled" };
  return aYieldTest({ ...named, date: "2026-10-05", apWeight, parts, ...stated });
}

describe("the summary of a kitchen's tests", () => {
  it("weighs every test by what was bought", () => {
    const summary = summariseTests([
      aTest(0.8, { units: 4, apWeight: grams("4000"), date: "2026-11-02" }),
      aTest(0.7, { units: 1, apWeight: grams("1001"), date: "2026-10-30" }),
    ]);
    expect(summary).toMatchObject({
      item: "swede",
      form: "whole",
      breakdown: "peeled",
      tests: 2,
      units: 5,
      apWeight: grams("5001"),
      unitWeight: grams("1000.2"),
      from: "2026-10-30",
      upTo: "2026-11-02",
    });
    const [flesh, peel, loss] = summary.shares;
    expect(flesh?.fraction).toBeCloseTo((3200 + 700.7) / 5001, 9);
    expect(peel?.fraction).toBeCloseTo(1 - (3200 + 700.7) / 5001, 9);
    expect(flesh?.standardError).toBeCloseTo(peel?.standardError ?? 0, 9);
    expect(loss).toEqual({ of: LOSS, fraction: 0, standardError: 0, spread: 0 });
  });

  it("rounds the weight of a unit to the nearest milligram", () => {
    const two = aTest(0.8, { units: 2, apWeight: grams("1000.001") });
    expect(summariseTests([two]).unitWeight).toBe(grams("500.001"));
    const three = aTest(0.8, { units: 3, apWeight: grams("1000") });
    expect(summariseTests([three]).unitWeight).toBe(grams("333.333"));
  });

  it("has no errors of a single test", () => {
    expect(summariseTests([aTest(0.8)]).shares[0]).toMatchObject({ standardError: null, spread: null });
  });

  it("counts a part that a test does not name as nothing of it", () => {
    const without = aTest(0.8, { parts: [{ part: FLESH, weight: grams("1000"), class: "food" }] });
    expect(summariseTests([aTest(0.8), without]).shares.find(({ of }) => of === PEEL)?.fraction).toBeCloseTo(
      0.1,
      9,
    );
  });

  it("refuses no tests, and tests of two things", () => {
    expect(() => summariseTests([])).toThrow(new RangeError("no tests to summarise"));
    const other = aTest(0.8, { form: "bunch" });
    expect(() => summariseTests([aTest(0.8), other])).toThrow(
      new RangeError("tests of swede (whole), peeled and of swede (bunch), peeled are not of one thing"),
    );
    expect(
      [...testsByCutting([aTest(0.8), other, aTest(0.7)])].map(([name, tests]) => [name, tests.length]),
    ).toEqual([
      ["swede (whole), peeled", 2],
      ["swede (bunch), peeled", 1],
    ]);
  });
});

describe("outliers", () => {
  const usual = [0.8, 0.81, 0.79, 0.805, 0.795].map((flesh, index) => aTest(flesh, { number: index + 1 }));

  it("are flagged in each share that lies far off, with their score", () => {
    const slip = aTest(0.6, { number: 6 });
    const { outliers, shares } = summariseTests([...usual, slip]);
    expect(outliers.map(({ of, test }) => [of, test.number])).toEqual([
      [FLESH, 6],
      [PEEL, 6],
    ]);
    // Median 0.7975, deviations 0.0025, 0.0125, 0.0075, 0.0075, 0.0025, 0.1975: their median 0.0075.
    expect(outliers[0]?.modifiedZ).toBeCloseTo((0.6745 * (0.6 - 0.7975)) / 0.0075, 6);
    expect(outliers[0]?.fraction).toBeCloseTo(0.6, 9);
    expect(shares[0]?.fraction, "a flagged test still counts").toBeCloseTo((4 + 0.6) / 6, 9);
  });

  it("are not looked for among fewer than five tests, nor found among usual ones", () => {
    expect(summariseTests(usual).outliers).toEqual([]);
    const four = [0.8, 0.8, 0.8, 0.3].map((flesh, index) => aTest(flesh, { number: index + 1 }));
    expect(summariseTests(four).outliers).toEqual([]);
  });

  it("are not made of what the scale cannot tell apart", () => {
    const same = [0.8, 0.8, 0.8, 0.8, 0.8, 0.801].map((flesh, index) => aTest(flesh, { number: index + 1 }));
    expect(summariseTests(same).outliers).toEqual([]);
  });
});

describe("drift", () => {
  const of = (flesh: readonly number[], stated: Partial<YieldTest>) =>
    flesh.map((each) => aTest(each, stated));

  it("between suppliers is flagged where it is more than chance", () => {
    const { drifts } = summariseTests([
      ...of([0.8, 0.81, 0.79, 0.805], { supplier: "Field & Co" }),
      ...of([0.72, 0.73, 0.71], { supplier: "Hill Farm" }),
    ]);
    const flesh = drifts.filter((drift) => drift.of === FLESH);
    expect(flesh).toHaveLength(1);
    expect(flesh[0]).toMatchObject({
      by: "supplier",
      group: "Field & Co",
      tests: 4,
      otherTests: 3,
      flagged: true,
    });
    expect(flesh[0]?.difference).toBeCloseTo(0.80125 - 0.72, 9);
    expect(drifts.find((drift) => drift.of === LOSS)).toMatchObject({
      difference: 0,
      flagged: false,
      chance: 1,
    });
  });

  it("by month compares each month with all the others, three tests on each side at least", () => {
    const { drifts } = summariseTests([
      ...of([0.8, 0.81, 0.79], { date: "2026-09-30" }),
      ...of([0.8, 0.79, 0.81], { date: "2026-10-01" }),
      ...of([0.7, 0.71, 0.69], { date: "2026-11-15" }),
      ...of([0.75, 0.75], { date: "2026-12-15" }),
    ]);
    const flesh = drifts.filter((drift) => drift.of === FLESH && drift.by === "month");
    expect(flesh.map(({ group, tests, otherTests }) => [group, tests, otherTests])).toEqual([
      ["2026-09", 3, 8],
      ["2026-10", 3, 8],
      ["2026-11", 3, 8],
    ]);
    expect(drifts.some(({ by }) => by === "supplier")).toBe(false);
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.3, AUTO83B.DAT: miles per gallon of 249 cars of the USA
  // (mean 20.14458, standard deviation 6.41470) and 79 of Japan (30.48101, 6.10771); pooled 6.34260,
  // T = -12.62059 (from memory). The values here have the same means and deviations.
  it("has the t of the published two-sample example", () => {
    const spreadOut = (mean: number, deviation: number, count: number, supplier: string) => [
      aTest(mean / 100, { supplier, apWeight: grams("100000") }),
      ...Array.from({ length: count - 1 }, (_, index) =>
        aTest((mean + (index % 2 === 0 ? deviation : -deviation)) / 100, {
          supplier,
          apWeight: grams("100000"),
        }),
      ),
    ];
    const { drifts } = summariseTests([
      ...spreadOut(20.14458, 6.4147, 249, "American"),
      ...spreadOut(30.48101, 6.10771, 79, "Japanese"),
    ]);
    const [flesh] = drifts;
    expect(flesh?.group).toBe("American");
    expect((flesh?.difference ?? 0) / (flesh?.standardError ?? 1)).toBeCloseTo(-12.62059, 4);
    expect(100 * (flesh?.standardError ?? 0)).toBeCloseTo(6.3426 * Math.sqrt(1 / 249 + 1 / 79), 5);
    expect(flesh?.flagged).toBe(true);
  });

  it("cries wolf in no more than one kitchen of twenty, and finds a supplier eight points off (seed 7)", () => {
    const next = seededNumbers(7);
    const kitchens = 400;
    const flagged = (off: number) => {
      let found = 0;
      for (let kitchen = 0; kitchen < kitchens; kitchen += 1) {
        const tests = Array.from({ length: 12 }, (_, index) =>
          aTest(0.75 + 0.03 * normal(next) - (index % 3 === 0 ? off : 0), {
            supplier: ["A", "B", "C"][index % 3] ?? "A",
            number: index,
          }),
        );
        const { drifts } = summariseTests(tests);
        if (drifts.some((drift) => drift.flagged && (off === 0 || drift.group === "A"))) found += 1;
      }
      return found / kitchens;
    };
    expect(flagged(0)).toBeLessThanOrEqual(0.05);
    expect(flagged(0.08)).toBeGreaterThan(0.5);
  });
});
