import { describe, expect, it } from "vitest";
import { Decimal } from "../../src/quantity/index.js";
import { type ButchersTest, butchersTest } from "../../src/yields/index.js";
import { decimal } from "../support/published-cards.js";

/** An invented card: 10 kg at 6.00, 2 kg of trim at 3.00, 1 kg lost, 7 kg usable. */
function card(stated: Partial<ButchersTest> = {}) {
  return butchersTest({
    apWeight: decimal(10),
    apPrice: decimal(6),
    byProducts: [{ name: "trim", weight: decimal(2), price: decimal(3) }],
    cuttingLoss: decimal(1),
    usableWeight: decimal(7),
    portionWeight: decimal("0.2"),
    ...stated,
  });
}

describe("the butcher's test", () => {
  it("keeps full precision", () => {
    const { usableCost, usablePrice, portionCost, costFactor } = card();
    expect(usableCost.toString()).toBe("54");
    expect(usablePrice.times(7).toFixed(40)).toBe(decimal(54).toFixed(40));
    expect(portionCost?.toFixed(4)).toBe("1.5429");
    expect(costFactor.toFixed(4)).toBe("1.2857");
  });

  it("gives the new usable price when the factor meets a new price, as long as trim prices move alike", () => {
    const later = card({
      apPrice: decimal("7.5"),
      byProducts: [{ name: "trim", weight: decimal(2), price: decimal("3.75") }],
    });
    expect(card().costFactor.times("7.5").toFixed(30)).toBe(later.usablePrice.toFixed(30));
  });

  it("has no portion figures where nothing is portioned", () => {
    expect(card({ portionWeight: null })).toMatchObject({ portionCost: null, portionCostFactor: null });
  });

  it("has fractions that add up to one", () => {
    const { byProducts, cuttingLoss, usable } = card().fractions;
    expect(Decimal.sum(...byProducts, cuttingLoss, usable).toString()).toBe("1");
  });

  it("takes what the steps of the scale hide as a loss of its own, over or under", () => {
    for (const hidden of ["0.1", "-0.1"]) {
      const { fractions, usableCost } = card({
        usableWeight: decimal(7).minus(hidden),
        cuttingDifference: decimal(hidden),
      });
      expect(fractions.cuttingDifference.toString()).toBe(decimal(hidden).div(10).toString());
      expect(usableCost.toString()).toBe("54");
    }
    expect(() => card({ cuttingDifference: decimal("0.1") })).toThrow(/^0.1 of 10 is too much/);
  });

  it.each<[string, Partial<ButchersTest>, string]>([
    [
      "weights that leave a gap",
      { usableWeight: decimal("6.9") },
      "0.1 of 10 is missing: the parts and the loss must add up to the AP weight",
    ],
    [
      "weights that are too much",
      { cuttingLoss: decimal("1.25") },
      "0.25 of 10 is too much: the parts and the loss must add up to the AP weight",
    ],
    [
      "a weight below zero",
      { cuttingLoss: decimal(-1), usableWeight: decimal(9) },
      "a weight or price is below zero",
    ],
    [
      "nothing usable",
      { cuttingLoss: decimal(8), usableWeight: decimal(0) },
      "nothing usable came out of the test",
    ],
    ["no AP price", { apPrice: decimal(0) }, "the AP price is not above zero"],
    [
      "credits above the AP cost",
      { byProducts: [{ name: "trim", weight: decimal(2), price: decimal("30.10") }] },
      "credits exceed the AP cost by 0.20",
    ],
  ])("refuses %s", (_, stated, message) => {
    expect(() => card(stated)).toThrow(new RangeError(message));
  });
});
