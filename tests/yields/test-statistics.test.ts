import fc from "fast-check";
import {
  mean,
  medianAbsoluteDeviation,
  sampleCorrelation,
  sampleStandardDeviation,
  median as simpleMedian,
  standardDeviation,
} from "simple-statistics";
import { describe, expect, it } from "vitest";
import {
  chanceBeyond,
  effectiveCount,
  jackknife,
  median,
  modifiedZScores,
  type Pair,
  ratioEstimate,
  spreadOf,
} from "../../src/yields/own-tests/statistics.js";

const NEAR = 1e-9;
const near = (value: number | null | undefined, expected: number) =>
  expect(Math.abs((value ?? Number.NaN) - expected)).toBeLessThanOrEqual(
    NEAR * Math.max(1, Math.abs(expected)),
  );
const averageOf = (values: readonly number[]) => mean([...values]);
const value = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((count) => count / 1000);
const values = fc.array(value, { minLength: 2, maxLength: 30 });
const pairs = fc.array(
  fc.record({ part: fc.integer({ min: 0, max: 5000 }), whole: fc.integer({ min: 5000, max: 20_000 }) }),
  { minLength: 2, maxLength: 20 },
);

describe("against simple-statistics, to 1e-9", () => {
  it("the jackknife of a mean is the standard error of the mean, without bias", () => {
    fc.assert(
      fc.property(values, (sample) => {
        const found = jackknife(sample, averageOf);
        near(found?.standardError, sampleStandardDeviation(sample) / Math.sqrt(sample.length));
        near(found?.bias, 0);
      }),
    );
  });

  it("with equal AP weights the ratio is the mean of the fractions, its error and the spread the textbook's", () => {
    fc.assert(
      fc.property(values, (sample) => {
        const equal = sample.map((part) => ({ part, whole: 500 }));
        const fractions = sample.map((part) => part / 500);
        near(ratioEstimate(equal), mean(fractions));
        near(spreadOf(equal), sampleStandardDeviation(fractions));
        const expected = sampleStandardDeviation(fractions) / Math.sqrt(sample.length);
        near(jackknife(equal, ratioEstimate)?.standardError, expected);
        near(effectiveCount(equal.map(({ whole }) => whole)), sample.length);
      }),
    );
  });

  it("the median, and with it the modified z-score", () => {
    fc.assert(
      fc.property(values, (sample) => {
        near(median(sample), simpleMedian(sample));
        const deviation = medianAbsoluteDeviation(sample);
        fc.pre(deviation > 1e-6);
        const scores = modifiedZScores(sample);
        sample.forEach((each, index) => {
          near(scores[index], (0.6745 * (each - simpleMedian(sample))) / deviation);
        });
      }),
    );
  });
});

describe("the ratio estimate", () => {
  it("weighs a test of ten heads ten times, unlike the mean of the percents", () => {
    const tests = [
      { part: 3000, whole: 5000 },
      { part: 200, whole: 500 },
    ];
    expect(ratioEstimate(tests)).toBeCloseTo(3200 / 5500, 12);
    expect(ratioEstimate(tests)).not.toBeCloseTo(0.5, 2);
  });

  it("has the jackknife error of its closed form: each test left out moves it by w (r - R)/(W - w)", () => {
    fc.assert(
      fc.property(pairs, (sample) => {
        const ratio = ratioEstimate(sample);
        const whole = sample.reduce((sum, pair) => sum + pair.whole, 0);
        const moves = sample.map((pair) => (ratio * pair.whole - pair.part) / (whole - pair.whole));
        const count = sample.length;
        near(
          jackknife(sample, ratioEstimate)?.standardError,
          Math.sqrt(count - 1) * standardDeviation(moves),
        );
      }),
    );
  });

  // Cochran, Sampling Techniques, 3rd ed., ch. 2 and 6: v(R) = sum of (y - R x)^2 / (n (n - 1) mean(x)^2), from memory.
  it("comes near the linearised error of the textbook where tests are many and alike", () => {
    const sample = Array.from({ length: 40 }, (_, index) => ({
      whole: 480 + ((index * 37) % 41),
      part: 290 + ((index * 53) % 23),
    }));
    const ratio = ratioEstimate(sample);
    const count = sample.length;
    const meanWhole = mean(sample.map(({ whole }) => whole));
    const residuals = sample.reduce((sum, { part, whole }) => sum + (part - ratio * whole) ** 2, 0);
    const linearised = Math.sqrt(residuals / (count * (count - 1))) / meanWhole;
    const found = jackknife(sample, ratioEstimate)?.standardError ?? 0;
    expect(Math.abs(found / linearised - 1)).toBeLessThan(0.01);
  });

  it("has no error and no spread of a single test", () => {
    expect(jackknife([{ part: 1, whole: 2 }], ratioEstimate)).toBeNull();
    expect(spreadOf([{ part: 1, whole: 2 }])).toBeNull();
  });

  it("does not mind the unit of weight", () => {
    fc.assert(
      fc.property(pairs, fc.double({ min: 0.001, max: 1000, noNaN: true }), (sample, unit) => {
        const other = sample.map(({ part, whole }): Pair => ({ part: part * unit, whole: whole * unit }));
        near(ratioEstimate(other), ratioEstimate(sample));
        near(spreadOf(other), spreadOf(sample) ?? 0);
      }),
    );
  });
});

describe("the jackknife against published examples", () => {
  // Efron and Tibshirani, An Introduction to the Bootstrap (1993), table 10.1; data also on S. Holmes, Stanford,
  // course s208. Ratio -0.0713, bias 0.0080 and standard error 0.1055 from memory of ch. 10 and 11.
  it("patch data: a ratio of means of -0.0713, jackknife bias 0.0080, standard error 0.1055", () => {
    const whole = [8406, 2342, 8187, 8459, 4795, 3516, 4796, 10_238];
    const part = [-1200, 2601, -2705, 1982, -1290, 351, -638, -2719];
    const patch = whole.map((each, index) => ({ whole: each, part: part[index] ?? 0 }));
    const found = jackknife(patch, ratioEstimate);
    expect(ratioEstimate(patch).toFixed(4)).toBe("-0.0713");
    expect(found?.bias.toFixed(4)).toBe("0.0080");
    expect(found?.standardError.toFixed(4)).toBe("0.1055");
  });

  // Efron, The Annals of Statistics 7 (1979); Efron and Tibshirani (1993), table 3.1 (from memory). The
  // correlation 0.7764 and the bias -0.0065 are printed in the documentation of MATLAB's jackknife too.
  it("law school data: correlation 0.776, jackknife standard error 0.1425, bias -0.0065", () => {
    const lsat = [576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594];
    const gpa = [3.39, 3.3, 2.81, 3.03, 3.44, 3.07, 3.0, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96];
    const schools = lsat.map((score, index) => ({ score, average: gpa[index] ?? 0 }));
    const correlation = (sample: readonly (typeof schools)[number][]) =>
      sampleCorrelation(
        sample.map(({ score }) => score),
        sample.map(({ average }) => average),
      );
    const found = jackknife(schools, correlation);
    expect(correlation(schools).toFixed(4)).toBe("0.7764");
    expect(found?.standardError.toFixed(4)).toBe("0.1425");
    expect(found?.bias.toFixed(4)).toBe("-0.0065");
  });
});

describe("the modified z-score", () => {
  // Seo, A Review and Comparison of Methods for Detecting Outliers in Univariate Data Sets (Pittsburgh, 2006),
  // the table of the modified z-score: data and scores from memory.
  it("finds the two outliers that hide each other from the ordinary z-score", () => {
    const data = [3.2, 3.4, 3.7, 3.7, 3.8, 3.9, 4, 4, 4.1, 4.2, 4.7, 4.8, 14, 15];
    const scores = modifiedZScores(data);
    expect(scores.at(-2)?.toFixed(2)).toBe("22.48");
    expect(scores.at(-1)?.toFixed(2)).toBe("24.73");
    expect(scores.at(0)?.toFixed(2)).toBe("-1.80");
    expect(scores.filter((score) => Math.abs(score) > 3.5)).toHaveLength(2);
  });

  it("takes what the scale cannot tell apart for no deviation", () => {
    const data = [0.5, 0.5, 0.5, 0.5, 0.502];
    expect(modifiedZScores(data).at(-1)).toBe(Number.POSITIVE_INFINITY);
    expect(modifiedZScores(data, 0.001).at(-1)).toBeCloseTo(1.349, 6);
    expect(modifiedZScores(data, 0.001)[0]).toBe(0);
  });
});

// Percentage points of Student's t, as printed in every table of it (Fisher and Yates; from memory).
describe("the chance beyond Student's t", () => {
  it.each([
    [1, 12.706, 0.05],
    [2, 4.303, 0.05],
    [3, 3.182, 0.05],
    [4, 2.776, 0.05],
    [4, 4.604, 0.01],
    [5, 2.571, 0.05],
    [8, 3.355, 0.01],
    [9, 2.262, 0.05],
    [10, 4.587, 0.001],
    [20, 2.845, 0.01],
    [30, 2.042, 0.05],
    [120, 1.98, 0.05],
  ])("with %i degrees of freedom t = %f is passed by %f", (freedom, t, chance) => {
    expect(Math.abs(chanceBeyond(t, freedom) / chance - 1)).toBeLessThan(0.002);
    expect(chanceBeyond(-t, freedom)).toBe(chanceBeyond(t, freedom));
  });

  it("is one at nothing and nothing at infinity", () => {
    expect(chanceBeyond(0, 5)).toBe(1);
    expect(chanceBeyond(Number.POSITIVE_INFINITY, 6)).toBeLessThan(1e-12);
  });
});
