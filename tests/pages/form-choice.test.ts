import { describe, expect, it } from "vitest";
import type { FormChoiceJson } from "../../src/contract/index.js";
import { arithmeticText, boughtText, cheapestText, plansText } from "../../src/pages/form-choice.js";
import { writingFor } from "../../src/pages/index.js";
import { grams, milligrams } from "../../src/quantity/index.js";

type Form = FormChoiceJson["forms"][number];
type BreakEven = NonNullable<FormChoiceJson["plans"]>["breakEvens"][number]["instead"];

const writing = writingFor({ locale: "en-GB", currency: "EUR", scaleStep: grams("1") });

const form = (item: string, more: Partial<Form> = {}): Form => ({
  item,
  form: item,
  breakdown: "cut",
  unit: "head",
  price: "2.00",
  unitWeight: "500",
  pricePerKilogram: "4",
  usable: "0.5",
  minutesPerKilogram: "0",
  usableCost: "8",
  overCheapest: "0",
  breakEven: null,
  ...more,
});
const choice: FormChoiceJson = {
  schema: "trim-to-use/form-choice@1",
  item: "marrow",
  scenario: null,
  currency: "EUR",
  wage: null,
  wanted: ["marrow dice"],
  forms: [form("untrimmed"), form("heart"), form("cut dice", { unit: "kg" })],
  plans: null,
};

const verdict = (kind: BreakEven["verdict"], proved = true): BreakEven => ({
  verdict: kind,
  price: null,
  perKilogram: null,
  proved,
});
const below = (price: string, perKilogram: string): BreakEven => ({
  verdict: "below",
  price,
  perKilogram,
  proved: true,
});
const said = (instead: BreakEven, beside: BreakEven, item = "heart"): string =>
  plansText({ item, instead, beside }, choice, writing);

describe("what is said of a break-even by plans", () => {
  it.each<[string, string]>([
    [
      said(below("1.34", "2.68"), below("2.00", "4")),
      "Heart: alone, it costs less than the best other form below €1.34 a head (€2.68 a kg); bought beside the others, it saves below €2.00 a head (€4.00 a kg).",
    ],
    [
      said(below("5.10", "5.1"), verdict("never"), "cut dice"),
      "Cut dice: alone, it costs less than the best other form below €5.10 a kg; bought beside the others, it never saves.",
    ],
    [said(verdict("no plan"), verdict("needed")), "Heart: without it there is no plan, whatever it costs."],
    // Three forms: no other alone makes a plan, but two of them together do.
    [
      said(verdict("needed"), below("2.00", "4")),
      "Heart: alone, it makes a plan as no other form alone does; bought beside the others, it saves below €2.00 a head (€4.00 a kg).",
    ],
    [
      said(verdict("no plan"), verdict("unknown", false)),
      "Heart: alone, it makes no plan; bought beside the others, it could not be judged. Not all of it is proved.",
    ],
  ])("%s", (text, expected) => {
    expect(text).toBe(expected);
  });
});

describe("what is said of a break-even by usable weight", () => {
  const at = (price: string, perKilogram: string): string => {
    const breakEven = { against: "untrimmed", price, perKilogram, minutesPerKilogram: null };
    return arithmeticText(form("heart", { breakEven }), choice, writing);
  };

  it("is the price, or that there is none", () => {
    expect(at("1.60", "3.2")).toBe(
      "Heart is worth it below €1.60 a head (€3.20 a kg); above that, untrimmed is cheaper.",
    );
    const ounces = writingFor({ locale: "en-US", currency: "USD", scaleStep: milligrams(2835n) });
    // 3.20 a kilogram x 0.45359237 kg = 1.4515 a pound.
    const breakEven = { against: "untrimmed", price: "1.60", perKilogram: "3.2", minutesPerKilogram: null };
    expect(arithmeticText(form("heart", { breakEven }), choice, ounces)).toBe(
      "Heart is worth it below $1.60 a head ($1.45 a lb); above that, untrimmed is cheaper.",
    );
    expect(cheapestText(choice, ounces)).toBe("Untrimmed and heart cost the same, $3.63 a usable lb.");
    expect(at("-0.20", "-0.4")).toBe("Heart is dearer than untrimmed even if it cost nothing.");
  });
});

describe("what is bought", () => {
  it.each([
    ["untrimmed", "bulb", "12 bulbs (untrimmed)"],
    ["untrimmed head", "head", "12 untrimmed heads"],
    ["crown", "crown", "12 crowns"],
    ["bunch with tops", "bunch", "12 bunches with tops"],
    ["cut dice", "kg", "12 kg of cut dice"],
    ["cut dice", "bag of 2 kg", "12 bags of 2 kg cut dice"],
  ])("is said of %s by the %s", (name, unit, text) => {
    const forms = [form("the item", { form: name }), form("other")];
    expect(
      boughtText({ item: "the item", unit, units: 12 }, { forms }, writing).replaceAll("\u00a0", " "),
    ).toBe(text);
  });
});
