import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CUP_SYSTEMS,
  Decimal,
  grams,
  milligrams,
  roundUpToCups,
  roundUpToPounds,
  roundUpToScoops,
  roundUpToSpoons,
  roundUpToStep,
  SCOOP_NUMBERS,
  scoopFor,
  unitsToCover,
} from "../../src/quantity/index.js";

const decimal = (text: string | number): Decimal => new Decimal(text);
const millilitres = fc.integer({ min: 0, max: 5_000_000 }).map((count) => decimal(count).div(1000));
const systems = fc.constantFrom(...CUP_SYSTEMS);

describe("rounding up to what is sold or what the scale shows", () => {
  it.each([
    ["0", "5", "0"],
    ["500", "5", "500"],
    ["500.001", "5", "505"],
    ["3.2", "0.5", "3.5"],
    ["1", "1000", "1000"],
  ])("%s g in steps of %s g is %s g", (needed, step, rounded) => {
    expect(roundUpToStep(grams(needed), grams(step))).toBe(grams(rounded));
  });

  it("counts the packs that cover a need", () => {
    expect(unitsToCover(grams("4001"), grams("1000"))).toBe(5n);
    expect(unitsToCover(grams("4000"), grams("1000"))).toBe(4n);
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
      new RangeError("the unit to round up to weighs nothing"),
    );
    expect(() => unitsToCover(milligrams(-1n), grams("1"))).toThrow(new RangeError("a need is below zero"));
  });
});

// A tablespoon is 3 teaspoons, a cup 16 tablespoons (NIST SP 430, 2004); a quart 946.352946 mL (NIST Handbook 44).
describe("rounding up to kitchen measures", () => {
  it.each([
    ["0", "0 tsp"],
    ["0.1", "1/4 tsp"],
    ["1.25", "1/4 tsp"],
    ["1.26", "1/2 tsp"],
    ["5", "1 tsp"],
    ["14.9", "1 tbsp"],
    ["15", "1 tbsp"],
    ["36.1", "2 tbsp 1 1/4 tsp"],
    ["40", "2 tbsp 2 tsp"],
  ])("%s mL is %s in metric spoons", (needed, text) => {
    expect(roundUpToSpoons(decimal(needed), "metric").text).toBe(text);
  });

  it.each([
    ["0", "0 cup"],
    ["1", "1/4 cup"],
    ["60", "1/4 cup"],
    ["60.1", "1/3 cup"],
    ["120.01", "2/3 cup"],
    ["200", "1 cup"],
    ["240.5", "1 1/4 cup"],
    ["400", "1 2/3 cup"],
  ])("%s mL is %s of 240 mL (21 CFR 101.9)", (needed, text) => {
    expect(roundUpToCups(decimal(needed), "us_label").text).toBe(text);
  });

  it.each([
    ["0", "0 oz"],
    ["1", "1/4 oz"],
    ["453.592", "1 lb"],
    ["453.593", "1 lb 1/4 oz"],
    ["4252.428", "9 lb 6 oz"],
    ["4259.515", "9 lb 6 1/4 oz"],
  ])("%s g is %s", (needed, text) => {
    expect(roundUpToPounds(grams(needed)).text).toBe(text);
  });

  it("takes the scoop of 4 fl oz for half a cup, the next larger for a little more", () => {
    const halfCup = decimal("236.5882365").div(2);
    expect(scoopFor(halfCup)).toEqual({ text: "scoop no. 8", amount: halfCup });
    expect(scoopFor(halfCup.plus("0.001"))?.text).toBe("scoop no. 6");
    expect(scoopFor(decimal("157.725492"))).toBeNull();
  });

  it("counts level scoops", () => {
    expect(roundUpToScoops(decimal(1000), 8)).toEqual({
      text: "9 x scoop no. 8",
      amount: decimal("118.29411825").times(9),
    });
  });

  it("is never short, and over by no more than the next measure", () => {
    fc.assert(
      fc.property(millilitres, systems, (needed, system) => {
        const spoons = roundUpToSpoons(needed, system).amount.minus(needed);
        const cups = roundUpToCups(needed, system).amount.minus(needed);
        expect(spoons.gte(0) && spoons.lt("1.3")).toBe(true);
        expect(cups.gte(0) && cups.lt("62.6")).toBe(true);
      }),
    );
  });

  it("is never short in scoops or in pounds", () => {
    fc.assert(
      fc.property(millilitres, fc.constantFrom(...SCOOP_NUMBERS), (needed, number) => {
        const scoop = decimal("946.352946").div(number);
        const over = roundUpToScoops(needed, number).amount.minus(needed);
        expect(over.gte(0) && over.lt(scoop)).toBe(true);
        const enough = scoopFor(needed);
        if (enough !== null) expect(enough.amount.gte(needed)).toBe(true);
        const pounds = roundUpToPounds(grams(needed)).amount.minus(needed);
        expect(pounds.gte(0) && pounds.lt("7.1")).toBe(true);
      }),
    );
  });

  it("refuses a need below zero", () => {
    const refused = new RangeError("a need is below zero");
    expect(() => roundUpToSpoons(decimal(-1), "us")).toThrow(refused);
    expect(() => roundUpToCups(decimal(-1), "us")).toThrow(refused);
    expect(() => roundUpToScoops(decimal(-1), 8)).toThrow(refused);
    expect(() => scoopFor(decimal(-1))).toThrow(refused);
  });
});
