import { describe, expect, it } from "vitest";
import {
  coinOf,
  Decimal,
  grams,
  hourlyWage,
  larger,
  minus,
  money,
  OUNCE_MILLIGRAMS,
  plus,
  scale,
  scaleWithStep,
  smaller,
  times,
  toCoins,
  toCurrency,
  toGrams,
  toKilograms,
  total,
} from "../../src/quantity/index.js";

describe("exact weights and money", () => {
  it("are read as written, to the nearest milligram and ten-thousandth, half up", () => {
    expect(grams("1.2345")).toBe(1235n);
    expect(grams("1.2344")).toBe(1234n);
    expect(grams(2n)).toBe(2000n);
    expect(money("0.00005")).toBe(1n);
    expect(money(new Decimal("13.5"))).toBe(135_000n);
  });

  it("are said in grams, kilograms and currency units without loss", () => {
    expect(toGrams(grams("1234.567")).toFixed()).toBe("1234.567");
    expect(toKilograms(grams("1234.567")).toFixed()).toBe("1.234567");
    expect(toCurrency(money("1.2345")).toFixed()).toBe("1.2345");
  });

  it("add, subtract, multiply and compare as integers do", () => {
    const [three, five] = [grams("3"), grams("5")];
    expect(plus(three, five)).toBe(8000n);
    expect(minus(three, five)).toBe(-2000n);
    expect(total([three, five, five])).toBe(13_000n);
    expect(total([])).toBe(0n);
    expect(times(three, 4)).toBe(12_000n);
    expect(times(three, 4n)).toBe(12_000n);
    expect([smaller(three, five), smaller(five, three)]).toEqual([3000n, 3000n]);
    expect([larger(three, five), larger(five, three)]).toEqual([5000n, 5000n]);
  });

  it("are scaled by an exact rate, half up, with no digit of a long amount lost", () => {
    expect(scale(grams("0.005"), new Decimal("0.5"))).toBe(3n);
    const long = 10n ** 40n + 1n;
    expect(scale(grams(long), new Decimal(3))).toBe(3000n * long);
  });
});

describe("a coin", () => {
  // Minor units of ISO 4217 (from memory): two decimals of a euro, none of a yen, three of a Kuwaiti dinar.
  it.each([
    ["EUR", "0.01"],
    ["JPY", "1"],
    ["KWD", "0.001"],
  ])("of %s is %s", (currency, coin) => {
    expect(coinOf(currency).toFixed()).toBe(coin);
  });

  it("is rounded to half up", () => {
    expect(toCoins(new Decimal("1.005"), new Decimal("0.01")).toFixed()).toBe("1.01");
    expect(toCoins(new Decimal("1.0049"), new Decimal("0.01")).toFixed()).toBe("1");
    expect(toCoins(new Decimal("2.5"), new Decimal("1")).toFixed()).toBe("3");
  });

  it("is not decided by what a division left over: a third of 0.045, three times", () => {
    const thrice = new Decimal("0.045").div(3.1).times(3.1);
    expect(thrice.toFixed()).not.toBe("0.045");
    expect(toCoins(thrice, new Decimal("0.01")).toFixed()).toBe("0.05");
  });
});

describe("a wage", () => {
  it.each([
    ["14.00 / h", "14"],
    ["14/h", "14"],
    [" 14.1250  /  hour ", "14.125"],
  ])("is read from %j", (text, perHour) => {
    expect(hourlyWage(text)).toBe(money(perHour));
  });

  it.each(["14", "14.00 / day", "x14 / h", "14.00001 / h", "14 / hours", "-1 / h", "14. / h", "14 / h x"])(
    "is not read from %j",
    (text) => {
      expect(hourlyWage(text)).toBeNull();
    },
  );
});

describe("what a scale reads", () => {
  const STEPS = [
    ["1000", 0],
    ["5", 0],
    ["0.5", 1],
    ["0.05", 2],
    ["0.001", 3],
  ] as const;
  it.each(STEPS)("of a step of %s g: grams with %d decimals", (step, places) => {
    const scale = scaleWithStep(grams(step));
    expect({ unit: scale.unit, places: scale.places, large: scale.large }).toEqual({
      unit: "g",
      places,
      large: { unit: "kg", size: 1000, from: 10_000 },
    });
    expect(scale.read(grams("12.345")).toFixed()).toBe("12.345");
  });

  // 28.349523125 g to the ounce (NIST Handbook 44, appendix C, from memory).
  it.each([
    [1, 0],
    [2, 1],
    [4, 2],
    [8, 3],
    [10, 1],
    [100, 2],
  ])("of a step of a whole part of an ounce, 1/%d: ounces with %d decimals", (parts, places) => {
    const step = grams(new Decimal("28.349523125").div(parts));
    const found = scaleWithStep(step);
    expect({ unit: found.unit, places: found.places, large: found.large }).toEqual({
      unit: "oz",
      places,
      large: { unit: "lb", size: 16, from: 16 },
    });
    expect(found.read(times(step, 3 * parts)).toFixed()).toBe("3");
    expect(OUNCE_MILLIGRAMS.toFixed()).toBe("28349.523125");
  });

  it("of a step that is no decimal part of an ounce: grams", () => {
    expect(scaleWithStep(grams("9.449841")).unit).toBe("g");
    expect(scaleWithStep(grams("1.771845")).unit).toBe("g");
    expect(scaleWithStep(grams("0.281")).unit).toBe("g");
  });
});
