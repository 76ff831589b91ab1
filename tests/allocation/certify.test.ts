import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { certify, describeViolation, type Violation } from "../../src/allocation/certify.js";
import { activityOf, valueAt } from "../../src/allocation/model.js";
import { solveWithGlpk } from "../support/glpk.js";
import { randomQuestion, seed } from "../support/random-models.js";
import { writeQuestion } from "../support/write-model.js";

console.log(`seed ${seed} (set CHECK_SEED to run it again)`);

const { model, objective } = writeQuestion({
  name: "two dishes",
  least: { heads: 2, grams: 0.5 },
  constant: 1,
  rows: [
    ["at least", { heads: 3, grams: 1 }, ">=", 10],
    ["at most", { heads: 1, grams: 1 }, "<=", 6],
    ["exactly", { heads: 1, grams: -1 }, "=", 1],
    ["between", { grams: 2 }, 2, 8],
  ],
  whole: ["heads"],
  between: { heads: [0, 4], grams: [0, 3] },
});
const POINT = [3, 2];
const TRUE_VALUE = 8;

const words = (violations: readonly Violation[]) => violations.map(describeViolation);
const check = (point: readonly number[], claimed = valueAt(objective, point)) =>
  words(certify(model, objective, point, claimed).violations);

describe("certify", () => {
  it("certifies a point that keeps everything, and computes its objective", () => {
    expect(certify(model, objective, POINT, TRUE_VALUE)).toEqual({
      certified: true,
      objective: TRUE_VALUE,
      violations: [],
    });
  });

  it("finds a row that has too little, too much, or is not equal, by name and amount", () => {
    expect(check([2, 1])).toEqual(["row at least is 3 too little"]);
    expect(check([4, 3])).toEqual(["row at most is 1 too much"]);
    expect(check([3, 2.25])).toEqual(["row exactly is 0.25 too little"]);
    expect(check([3, 1.75])).toEqual(["row exactly is 0.25 too much"]);
    expect(check([3, 0])).toEqual([
      "row at least is 1 too little",
      "row exactly is 2 too much",
      "row between is 2 too little",
    ]);
  });

  it("finds a bound broken on either side", () => {
    expect(check([5, 4])).toEqual([
      "bound heads is 1 too much",
      "bound grams is 1 too much",
      "row at most is 3 too much",
    ]);
    expect(check([3, -0.5])).toContain("bound grams is 0.5 too little");
  });

  it("finds a number that is not whole, however little is missing", () => {
    expect(check([2.25, 1.25])).toContain("whole number heads is 0.25 too much");
    expect(check([3 + 1e-9, 2])).toEqual(["whole number heads is 1e-9 too much"]);
    expect(check([3 - 1e-9, 2])).toEqual(["whole number heads is 1e-9 too little"]);
  });

  it("finds a claimed objective that is not the true one", () => {
    expect(check(POINT, TRUE_VALUE - 0.25)).toEqual(["objective two dishes is 0.25 too little"]);
    expect(check(POINT, TRUE_VALUE + 0.25)).toEqual(["objective two dishes is 0.25 too much"]);
    expect(check(POINT, Number.NaN)).toHaveLength(1);
  });

  it("refuses a point of the wrong length or with what is no number", () => {
    expect(check([3])).toEqual(["point two dishes is 1 too little"]);
    expect(check([3, 2, 0])).toEqual(["point two dishes is 1 too much"]);
    expect(check([3, Number.NaN])).toEqual(["point grams is NaN too much"]);
    expect(check([Number.NEGATIVE_INFINITY, 2])).toEqual(["point heads is Infinity too little"]);
  });

  it("allows 1e-6 for rounding in a row or bound, and no more", () => {
    expect(check([3, 2 + 0.9e-6])).toEqual([]);
    expect(check([3, 2 + 1.2e-6])).toEqual(["row exactly is 0.0000012 too little"]);
  });
});

/** Every kind of spoiling, each of a size that matters: a hundredth. */
const STEP = 0.01;
/** What a moved number changes in a row is nothing or at least a thousandth of the step. */
const HURTS = 3e-6;

describe("certify on random models", () => {
  it("certifies what GLPK found, and refuses it once any number is moved out of its bounds or its rows", () => {
    let spoilt = 0;
    fc.assert(
      fc.property(
        randomQuestion({ variables: 6, rows: 6 }, true),
        fc.nat(),
        fc.boolean(),
        (question, pick, isUp) => {
          const answer = solveWithGlpk(question.model, question.objective);
          if (answer.kind !== "optimal") return;
          const { point, objective: value } = answer;
          expect(certify(question.model, question.objective, point, value).certified).toBe(true);

          const index = pick % point.length;
          const moved = point.map((number, at) => (at === index ? number + (isUp ? STEP : -STEP) : number));
          const variable = question.model.variables[index];
          const number = moved[index] ?? 0;
          const broken = [
            ...(variable?.integer ? ["whole number"] : []),
            ...(variable && (number < variable.lower - HURTS || number > variable.upper + HURTS)
              ? ["bound"]
              : []),
            ...question.model.rows.flatMap((row) => {
              const sum = activityOf(row, moved);
              return sum < row.lower - HURTS || sum > row.upper + HURTS ? ["row"] : [];
            }),
          ];
          const { certified, violations } = certify(
            question.model,
            question.objective,
            moved,
            valueAt(question.objective, moved),
          );
          expect(certified).toBe(broken.length === 0);
          expect(violations.map(({ of }) => of).sort()).toEqual(broken.sort());
          if (broken.length > 0) spoilt += 1;
        },
      ),
      { seed, numRuns: 500 },
    );
    expect(spoilt).toBeGreaterThan(100);
  });

  it("refuses a wrong price of any point", () => {
    fc.assert(
      fc.property(randomQuestion({ variables: 6, rows: 0 }, false), fc.boolean(), (question, isUp) => {
        const point = question.model.variables.map(({ lower }) => lower);
        const value = valueAt(question.objective, point);
        expect(certify(question.model, question.objective, point, value).certified).toBe(true);
        const claimed = value + (isUp ? STEP : -STEP);
        expect(certify(question.model, question.objective, point, claimed).violations).toEqual([
          expect.objectContaining({ of: "objective", direction: isUp ? "too much" : "too little" }),
        ]);
      }),
      { seed, numRuns: 200 },
    );
  });
});
