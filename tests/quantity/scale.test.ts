import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { grams, milligrams, roundUpToStep } from "../../src/quantity/index.js";

describe("rounding up to what the scale shows", () => {
  it.each([
    ["0", "5", "0"],
    ["500", "5", "500"],
    ["500.001", "5", "505"],
    ["3.2", "0.5", "3.5"],
    ["1", "1000", "1000"],
  ])("%s g in steps of %s g is %s g", (needed, step, rounded) => {
    expect(roundUpToStep(grams(needed), grams(step))).toBe(grams(rounded));
  });

  it("covers the need, and by less than one step", () => {
    const weights = fc.bigInt({ min: 0n, max: 10n ** 9n });
    const steps = fc.bigInt({ min: 1n, max: 10n ** 6n });
    fc.assert(
      fc.property(weights, steps, (needed, step) => {
        const over = roundUpToStep(milligrams(needed), milligrams(step)) - needed;
        return over >= 0n && over < step;
      }),
    );
  });

  it("refuses a step of nothing and a need below zero", () => {
    expect(() => roundUpToStep(grams("1"), grams("0"))).toThrow(
      new RangeError("the step to round up to weighs nothing"),
    );
    expect(() => roundUpToStep(milligrams(-1n), grams("1"))).toThrow(new RangeError("a need is below zero"));
  });
});
