import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CUP_SYSTEMS,
  type CupSystem,
  Decimal,
  millilitresIn,
  toGrams,
  type Unit,
  unitNamed,
  VOLUME_UNIT_NAMES,
  WEIGHT_UNIT_NAMES,
  weightIn,
} from "../../src/quantity/index.js";

const SEED = 430;
const RUNS = 500;
console.info(`unit properties: seed ${SEED}, ${RUNS} runs each`);

function unit(name: string, system: CupSystem | null = null): Unit {
  const named = unitNamed(name, system);
  if (named.kind !== "unit") throw new Error(`${name}: ${named.kind}`);
  return named.unit;
}

const factor = (name: string, system: CupSystem | null = null) => unit(name, system).factor.toFixed();

describe("units of weight", () => {
  // NIST SP 811 App. B and NIST Handbook 44 App. C, from memory.
  it.each([
    ["lb", "453.59237"],
    ["oz", "28.349523125"],
    ["kg", "1000"],
    ["mg", "0.001"],
  ])("have their exact factor: 1 %s", (name, grams) => {
    expect(factor(name)).toBe(grams);
  });

  it("make sixteen ounces a pound exactly, and 7,000 grains of 64.79891 mg", () => {
    expect(unit("oz").factor.times(16).equals(unit("lb").factor)).toBe(true);
    // The grain: NIST SP 811 App. B, from memory.
    expect(new Decimal("0.06479891").times(7000).equals(unit("lb").factor)).toBe(true);
  });

  it("keep the label ounce of 21 CFR 101.9(b)(5)(viii) apart from the avoirdupois one", () => {
    expect(factor("label oz")).toBe("28");
    expect(factor("oz")).not.toBe("28");
  });

  it("agree with the figures of USDA SR28 documentation, p. 5: 453.6 g a pound", () => {
    expect(unit("lb").factor.toDecimalPlaces(1).toFixed()).toBe("453.6");
  });

  it("read 9 lb 6 oz as 9.375 lb (math25.net, Percent Facts)", () => {
    const [pounds, ounces] = [unit("lb").factor, unit("oz").factor];
    expect(pounds.times(9).plus(ounces.times(6)).div(pounds).toFixed()).toBe("9.375");
  });
});

describe("units of volume", () => {
  it("have the structure of NIST SP 430 (2004): 1 gal = 4 qt = 8 pt = 16 cups = 128 fl oz", () => {
    const gallon = unit("us gallon").factor;
    for (const [count, name] of [
      [4, "us quart"],
      [8, "us pint"],
      [16, "us cup"],
      [128, "us fl oz"],
      [256, "us tbsp"],
      [768, "us tsp"],
    ] as const) {
      expect(unit(name).factor.times(count).equals(gallon), name).toBe(true);
    }
  });

  it("make the US gallon 231 cubic inches of 25.4 mm (NIST Handbook 44 App. C, from memory)", () => {
    expect(new Decimal("2.54").pow(3).times(231).equals(unit("us gallon").factor)).toBe(true);
  });

  it("make the imperial gallon 4.54609 L, 8 pints, 160 fluid ounces (NIST SP 811 App. B, from memory)", () => {
    const gallon = unit("imperial gallon").factor;
    expect(gallon.toFixed()).toBe("4546.09");
    expect(unit("imperial quart").factor.times(4).equals(gallon)).toBe(true);
    expect(unit("imperial pint").factor.times(8).equals(gallon)).toBe(true);
    expect(unit("imperial fl oz").factor.times(160).equals(gallon)).toBe(true);
  });

  it("have the label measures of 21 CFR 101.9(b)(5)(viii)", () => {
    const label = ["tsp", "tbsp", "cup", "fl oz"].map((name) => factor(name, "us_label"));
    expect(label).toEqual(["5", "15", "240", "30"]);
  });

  it("tell three cups apart, and ask which one is meant", () => {
    expect(factor("cup", "us")).toBe("236.5882365");
    // Canadian usage, from memory.
    expect(factor("cup", "metric")).toBe("250");
    expect(factor("cup", "us_label")).toBe("240");
    expect(unitNamed("cup", null)).toEqual({ kind: "which cup", name: "cup" });
    expect(factor("metric cup")).toBe("250");
  });

  it("have no pint in the metric and the label measures", () => {
    expect(unitNamed("pint", "metric")).toEqual({ kind: "not in system", name: "pint", system: "metric" });
    expect(unitNamed("quart", "us_label")).toEqual({
      kind: "not in system",
      name: "quart",
      system: "us_label",
    });
  });

  it("price 12 cans of 0.75 gal at 22.94 as holt.blue MTH 81 ch. 9 prints it", () => {
    const fluidOunces = unit("gallon", "us").factor.times("0.75").times(12).div(unit("fl oz", "us").factor);
    expect(fluidOunces.toFixed()).toBe("1152");
    const each = new Decimal("22.94").div(fluidOunces);
    expect(each.toDecimalPlaces(4).toFixed()).toBe("0.0199");
    expect(each.times(6).toDecimalPlaces(4).toFixed()).toBe("0.1195");
    expect(each.times(6).times(200).toFixed(2)).toBe("23.90");
  });
});

describe("names of units", () => {
  it.each([
    ["pounds", "lb"],
    ["lbs", "lb"],
    ["Grams", "g"],
    ["KG", "kg"],
    ["ounces", "oz"],
    ["ml", "mL"],
    ["litres", "L"],
    ["label  oz", "label oz"],
    [" lb. ", "lb"],
    ["gram", "g"],
    ["kilogram", "kg"],
    ["kilos", "kg"],
    ["Pounds", "lb"],
    ["cl", "cL"],
    ["millilitres", "mL"],
    ["milliliter", "mL"],
    ["l", "L"],
    ["liter", "L"],
  ])("take %s for %s", (written, name) => {
    expect(unit(written).name).toBe(name);
  });

  it("take plurals and the written-out names of measures", () => {
    expect(unit("tablespoons", "us").name).toBe("us tbsp");
    expect(unit("cups", "us").name).toBe("us cup");
    expect(unit("fluid ounces", "us").name).toBe("us fl oz");
    expect(unit("imperial pints").name).toBe("imperial pint");
  });

  it.each([
    ["teaspoon", "us tsp"],
    ["Tbsp", "us tbsp"],
    ["fl oz", "us fl oz"],
    ["pt", "us pint"],
    ["qt", "us quart"],
    ["gal", "us gallon"],
  ])("take %s for the %s", (written, name) => {
    expect(unit(written, "us").name).toBe(name);
  });

  it("offer those of weight for a weight, and those of no one system for a volume", () => {
    expect([...WEIGHT_UNIT_NAMES].sort()).toEqual(
      ["g", "gram", "kg", "kilo", "kilogram", "label oz", "lb", "mg", "ounce", "oz", "pound"].sort(),
    );
    expect(VOLUME_UNIT_NAMES).toEqual([
      "mL",
      "cL",
      "L",
      "tsp",
      "tbsp",
      "fl oz",
      "cup",
      "pint",
      "quart",
      "gallon",
    ]);
    expect(CUP_SYSTEMS).toEqual(["us", "metric", "us_label"]);
  });

  it("do not know a head, a bunch or a stone, nor a letter more than a plural has", () => {
    for (const name of ["head", "bunch", "stone", "", "gm", "ksg", "k.g", "Lsb", "gss"])
      expect(unitNamed(name, "us").kind).toBe("unknown");
  });

  it("are all read", () => {
    for (const name of [...WEIGHT_UNIT_NAMES, ...VOLUME_UNIT_NAMES]) {
      expect(unitNamed(name, "us").kind, name).toBe("unit");
    }
  });
});

describe("conversion", () => {
  it("refuses a weight of a volume and a volume of a weight", () => {
    expect(() => weightIn(unit("mL"), new Decimal(1))).toThrow(RangeError);
    expect(() => millilitresIn(unit("g"), new Decimal(1))).toThrow(RangeError);
  });

  it("rounds to the milligram, half up, and only once", () => {
    expect(weightIn(unit("lb"), new Decimal(1))).toBe(453_592n);
    expect(weightIn(unit("oz"), new Decimal(16))).toBe(453_592n);
    expect(weightIn(unit("mg"), new Decimal("0.5"))).toBe(1n);
  });

  it("loses at most half a milligram, whatever the unit and count", () => {
    const counts = fc.integer({ min: 0, max: 10 ** 9 }).map((count) => new Decimal(count).div(1000));
    const property = fc.property(fc.constantFrom(...WEIGHT_UNIT_NAMES), counts, (name, count) => {
      const exact = unit(name).factor.times(count);
      const apart = toGrams(weightIn(unit(name), count))
        .minus(exact)
        .abs();
      expect(apart.lessThanOrEqualTo("0.0005")).toBe(true);
    });
    fc.assert(property, { seed: SEED, numRuns: RUNS });
  });

  it("is the same in one step as in two: cups to gallons by way of millilitres", () => {
    const property = fc.property(fc.integer({ min: 1, max: 10 ** 6 }), (cups) => {
      const millilitres = millilitresIn(unit("us cup"), new Decimal(cups));
      const gallons = millilitres.div(unit("us gallon").factor);
      expect(gallons.times(16).toDecimalPlaces(40).equals(cups)).toBe(true);
    });
    fc.assert(property, { seed: SEED, numRuns: RUNS });
  });
});
