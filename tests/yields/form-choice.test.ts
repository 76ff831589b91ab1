import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  breakEvenMinutes,
  breakEvenPrice,
  compareForms,
  type FormOffer,
  usableCost,
} from "../../src/yields/index.js";
import { decimal } from "../support/published-cards.js";

const FREE = decimal(0);

/** Invented prices per kilogram. */
const head: FormOffer = {
  form: "untrimmed head",
  price: decimal("1.80"),
  usable: decimal("0.6"),
  trimCredit: decimal(0),
  minutes: decimal(6),
};
const florets: FormOffer = {
  form: "cut florets",
  price: decimal("4.85"),
  usable: decimal("0.97"),
  trimCredit: decimal(0),
  minutes: decimal(0),
};

describe("which form to buy", () => {
  it("costs the usable weight: price over yield where hands and trim count for nothing", () => {
    expect(usableCost(head, FREE).toString()).toBe("3");
    expect(usableCost(florets, FREE).toString()).toBe("5");
    expect(
      compareForms([florets, head], FREE).map(({ offer, overCheapest }) => [
        offer.form,
        String(overCheapest),
      ]),
    ).toEqual([
      ["untrimmed head", "0"],
      ["cut florets", "2"],
    ]);
  });

  it("adds the minutes at the wage: at 15.00 an hour six minutes a kilogram turn the choice", () => {
    expect(usableCost(head, decimal(15)).toString()).toBe("5.5");
    expect(compareForms([head, florets], decimal(15))[0]?.offer.form).toBe("cut florets");
  });

  it("credits the trim that has a use", () => {
    const stemsUsed = { ...head, trimCredit: decimal("0.30") };
    expect(usableCost(stemsUsed, decimal(15)).toString()).toBe("5");
  });

  it("finds the price, and the minutes, at which both cost the same", () => {
    expect(breakEvenPrice(head, florets, decimal(15)).toString()).toBe("1.5");
    expect(breakEvenMinutes(head, florets, decimal(15)).toString()).toBe("4.8");
    expect(breakEvenMinutes({ ...head, price: decimal(4) }, florets, decimal(15)).isNegative()).toBe(true);
  });

  it("costs the same at the break-even, whatever the forms", () => {
    const cents = (least: number, most: number) =>
      fc.integer({ min: least, max: most }).map((count) => decimal(count).div(100));
    const offers = fc.record({
      form: fc.constant("any form"),
      price: cents(1, 3000),
      usable: cents(1, 100),
      trimCredit: cents(0, 200),
      minutes: cents(0, 6000),
    });
    fc.assert(
      fc.property(offers, offers, cents(1, 4000), (one, other, wage) => {
        const target = usableCost(other, wage);
        const atPrice = usableCost({ ...one, price: breakEvenPrice(one, other, wage) }, wage);
        const atMinutes = usableCost({ ...one, minutes: breakEvenMinutes(one, other, wage) }, wage);
        expect(atPrice.minus(target).abs().lt("1e-40")).toBe(true);
        expect(atMinutes.minus(target).abs().lt("1e-40")).toBe(true);
        const dearer = usableCost({ ...one, price: breakEvenPrice(one, other, wage).plus("0.01") }, wage);
        expect(dearer.gt(target)).toBe(true);
      }),
    );
  });

  it("refuses a form of which nothing is usable, and minutes that cost nothing", () => {
    expect(() => usableCost({ ...head, usable: decimal(0) }, FREE)).toThrow(
      new RangeError("nothing of untrimmed head is usable"),
    );
    expect(() => breakEvenMinutes(head, florets, FREE)).toThrow(
      new RangeError("the wage is not above zero: minutes cost nothing"),
    );
  });
});
