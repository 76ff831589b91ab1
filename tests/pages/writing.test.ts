import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Scenario } from "../../src/kitchen/index.js";
import { coins, counted, cutWords, listed, plural, writingFor } from "../../src/pages/writing.js";
import { Decimal, grams, milligrams, money, scaleWithStep, total } from "../../src/quantity/index.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";

const with_ = (changes: Partial<Scenario>) => writingFor({ ...hallScenario, ...changes });
const plain = (text: string) => text.replace(/[\u00a0\u202f\u2009]/g, " ");

describe("weights", () => {
  it("are in grams below 10 kg and in kilograms from there on", () => {
    const { weight } = with_({});
    expect(plain(weight(grams("9999.4")))).toBe("9,999 g");
    expect(plain(weight(grams("9999.5")))).toBe("10.0 kg");
    expect(plain(weight(grams("12345")))).toBe("12.345 kg");
    expect(plain(weight(grams("0")))).toBe("0 g");
  });

  it("have no more decimals than the scale shows, and are whole steps of it", () => {
    expect(plain(with_({ scaleStep: grams("5") }).weight(grams("1692.6")))).toBe("1,695 g");
    expect(with_({ scaleStep: grams("0.1") }).shown(grams("1692.64"))).toBe("1,692.6");
    expect(with_({ scaleStep: grams("0.5") }).shown(grams("1692.7"))).toBe("1,692.5");
  });

  it("follow the scenario's locale", () => {
    expect(plain(with_({ locale: "de-DE" }).weight(grams("12345")))).toBe("12,345 kg");
    expect(plain(with_({ locale: "fr-FR" }).weight(grams("1234")))).toBe("1 234 g");
  });

  // NIST Handbook 44, appendix C: 1 ounce = 28.349 523 125 g exactly, 1 pound = 16 ounces.
  it("are in ounces and pounds where the scale's step is a part of an ounce", () => {
    const quarter = with_({ scaleStep: grams("7.087") });
    expect(quarter.unit).toBe("oz");
    expect(plain(quarter.weight(grams("2834.952")))).toBe("6 lb 4 oz");
    expect(quarter.shown(grams("7.087"))).toBe("0.25");
    expect(plain(quarter.weight(grams("5443.108")))).toBe("12 lb");
    expect(scaleWithStep(grams("28.350")).unit).toBe("oz");
    for (const step of ["0.1", "0.2", "0.5", "1", "2", "5", "10", "50"])
      expect(scaleWithStep(grams(step)).unit).toBe("g");
  });

  it("of a recipe keep the decimals it states", () => {
    expect(plain(with_({}).exactly(grams("7.5")))).toBe("7.5 g");
  });
});

describe("money", () => {
  it("is exact where a binary float would not be", () => {
    expect(with_({}).money(money("9007199254740993.01"))).toBe("£9,007,199,254,740,993.01");
    expect(with_({}).money(money("1.005"))).toBe("£1.01");
    expect(with_({ currency: "JPY" }).money(money("1234"))).toBe("JP¥1,234");
  });

  it("of a price keeps the decimals it has", () => {
    expect(with_({}).price(money("0.705"))).toBe("£0.705");
    expect(with_({}).price(money("2.1"))).toBe("£2.10");
  });

  it("in a column is rounded to coins that add up", () => {
    const column = coins([money("1.005"), money("1.005"), money("1.005")], hallScenario);
    expect(total(column)).toBe(money("3.02"));
  });
});

describe("percentages", () => {
  it("add up to a hundred to one decimal", () => {
    const seed = 2026;
    console.info(`percentages: seed ${seed}`);
    const weights = fc.array(fc.bigInt({ min: 0n, max: 10n ** 9n }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(weights, (parts) => {
        const texts = with_({}).percents(parts.map(milligrams));
        const sum = texts.reduce((acc, text) => acc.plus(text.replace("%", "")), new Decimal(0));
        expect(sum.toFixed()).toBe(parts.some((part) => part > 0n) ? "100" : "0");
      }),
      { seed, numRuns: 300 },
    );
  });
});

describe("words", () => {
  it.each([
    ["head", "heads"],
    ["bunch", "bunches"],
    ["case of 6", "cases of 6"],
    ["half tray of 30", "half trays of 30"],
    ["butternut squash", "butternut squash"],
    ["leaf", "leaves"],
    ["tomato", "tomatoes"],
    ["berry", "berries"],
    ["tray", "trays"],
    ["kg", "kg"],
  ])("%s, several: %s", (one, several) => {
    expect(plural(one)).toBe(several);
  });

  it("count, list and say how something is cut", () => {
    expect(plain(counted(with_({}), 1, "head"))).toBe("1 head");
    expect(plain(counted(with_({}), new Decimal("2.5"), "batch"))).toBe("2.5 batches");
    expect(listed(["a", "b", "c"])).toBe("a, b and c");
    expect(cutWords("rings and dice")).toBe("in rings and dice");
    expect(cutWords("peeled")).toBe("peeled");
    expect(cutWords("cut up")).toBe("cut up");
    expect(cutWords("reduction")).toBe("in reduction");
  });

  it("write dates the way of the locale, in English", () => {
    expect(with_({}).date("2026-10-02")).toBe("Friday, 2 October 2026");
    expect(plain(with_({ locale: "en-US" }).shortDate("2026-10-02"))).toBe("Fri, Oct 2");
    expect(plain(with_({ locale: "de-DE" }).shortDate("2026-10-02"))).toBe("Fri 2 Oct");
    expect(plain(with_({}).dates("2026-10-02", "2026-10-03"))).toBe("2–3 Oct 2026".replace("–", " – "));
  });
});
