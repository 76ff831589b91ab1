import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Decimal } from "../../src/quantity/index.js";
import {
  apWeightFor,
  type CookingLossTest,
  cookingLossTest,
  portionsIn,
  repriced,
} from "../../src/yields/index.js";
import { decimal } from "../support/published-cards.js";

/** An invented card: 10 kg at 6.00; 2 kg of trim at 3.00, 0.5 lost; 7.5 kg roasted to 6 kg; 1 kg of bone at 0.50. */
function card(stated: Partial<CookingLossTest> = {}) {
  return cookingLossTest({
    apWeight: decimal(10),
    apPrice: decimal(6),
    trimmed: [{ name: "trim", weight: decimal(2), price: decimal(3) }],
    cuttingLoss: decimal("0.5"),
    rawWeight: decimal("7.5"),
    cookedWeight: decimal(6),
    carved: [{ name: "bone", weight: decimal(1), price: decimal("0.5") }],
    carvingLoss: decimal("0.2"),
    servedWeight: decimal("4.8"),
    portionWeight: decimal("0.15"),
    ...stated,
  });
}

describe("the cooking-loss test", () => {
  it("charges what is served with the AP cost less every credit", () => {
    const result = card();
    expect(result.credits).toEqual({ trimmed: [decimal(6)], carved: [decimal("0.5")] });
    expect(result.servedCost.toString()).toBe("53.5");
    expect(result.servedPrice.toFixed(4)).toBe("11.1458");
    expect(result.portionCost?.toFixed(4)).toBe("1.6719");
    expect(result.costFactor.toFixed(4)).toBe("1.8576");
    expect(result.portionCostFactor?.toFixed(4)).toBe("0.2786");
    expect(result.cookingYield.toString()).toBe("0.8");
  });

  it("says where every part of the AP weight went", () => {
    const { trimmed, cuttingLoss, cookingLoss, carved, carvingLoss, served } = card().fractions;
    const fractions = [...trimmed, cuttingLoss, cookingLoss, ...carved, carvingLoss, served];
    expect(fractions.map(String)).toEqual(["0.2", "0.05", "0.15", "0.1", "0.02", "0.48"]);
  });

  it("lets cooking take up water: a loss below zero", () => {
    const rice = card({ cookedWeight: decimal(18), servedWeight: decimal("16.8") });
    expect(rice.fractions.cookingLoss.toString()).toBe("-1.05");
    expect(rice.cookingYield.toString()).toBe("2.4");
    expect(rice.portionCost?.toFixed(4)).toBe("0.4777");
  });

  it("prices by its factor after a move of the AP price, as the whole card does if by-products move alike", () => {
    const later = card({
      apPrice: decimal("7.2"),
      trimmed: [{ name: "trim", weight: decimal(2), price: decimal("3.6") }],
      carved: [{ name: "bone", weight: decimal(1), price: decimal("0.6") }],
    });
    expect(repriced(card().costFactor, decimal("7.2")).toFixed(30)).toBe(later.servedPrice.toFixed(30));
  });

  it("has no portion figures where nothing is portioned", () => {
    expect(card({ portionWeight: null })).toMatchObject({ portionCost: null, portionCostFactor: null });
  });

  it.each<[string, Partial<CookingLossTest>, string]>([
    [
      "trimmings that leave a gap",
      { rawWeight: decimal("7.4") },
      "0.1 of 10 is missing: trimmings, cutting loss and raw weight must make the AP weight",
    ],
    [
      "carvings that are too much",
      { carvingLoss: decimal("0.45") },
      "0.25 of 6 is too much: carvings, carving loss and served must make the cooked weight",
    ],
    ["a weight below zero", { carvingLoss: decimal(-1) }, "a weight or price is below zero"],
    ["nothing served", { servedWeight: decimal(0) }, "nothing was served of the test"],
    ["nothing cooked", { rawWeight: decimal(0) }, "nothing was cooked in the test"],
    ["no AP price", { apPrice: decimal(0) }, "the AP price is not above zero"],
    [
      "credits above the AP cost",
      { trimmed: [{ name: "trim", weight: decimal(2), price: decimal("29.80") }] },
      "credits exceed the AP cost by 0.10",
    ],
  ])("refuses %s", (_, stated, message) => {
    expect(() => card(stated)).toThrow(new RangeError(message));
  });

  it("accounts for every gram and every coin of any card", () => {
    const weight = fc.integer({ min: 0, max: 5000 });
    const product = fc.record({ weight, price: fc.integer({ min: 0, max: 300 }) });
    const products = fc.array(product, { maxLength: 4 });
    const some = fc.integer({ min: 1, max: 5000 });
    fc.assert(
      fc.property(
        products,
        products,
        weight,
        weight,
        weight,
        some,
        (before, after, cut, cooking, carve, served) => {
          const named = (list: typeof before) =>
            list.map(({ weight: grams, price }, index) => ({
              name: `by-product ${index}`,
              weight: decimal(grams),
              price: decimal(price).div(100),
            }));
          const weightOf = (list: typeof before) => list.reduce((sum, each) => sum + each.weight, 0);
          const cooked = weightOf(after) + carve + served;
          const raw = cooked + cooking;
          const result = cookingLossTest({
            apWeight: decimal(weightOf(before) + cut + raw),
            apPrice: decimal(3),
            trimmed: named(before),
            cuttingLoss: decimal(cut),
            rawWeight: decimal(raw),
            cookedWeight: decimal(cooked),
            carved: named(after),
            carvingLoss: decimal(carve),
            servedWeight: decimal(served),
            portionWeight: null,
          });
          const { trimmed, carved, ...single } = result.fractions;
          const sum = Decimal.sum(...trimmed, ...carved, ...Object.values(single));
          expect(sum.toFixed(40)).toBe(decimal(1).toFixed(40));
          const credited = Decimal.sum(0, ...result.credits.trimmed, ...result.credits.carved);
          expect(credited.plus(result.servedCost).eq(result.apCost)).toBe(true);
        },
      ),
      { seed: 20261008 },
    );
  });
});

describe("portions", () => {
  it("are whole, the rest is left over", () => {
    expect(portionsIn(decimal("4.8"), decimal("0.15"))).toEqual({ count: 32, leftOver: decimal(0) });
    expect(portionsIn(decimal("4.79"), decimal("0.15"))).toEqual({ count: 31, leftOver: decimal("0.14") });
    expect(portionsIn(decimal("0.1"), decimal("0.15"))).toEqual({ count: 0, leftOver: decimal("0.1") });
  });

  it("take the AP weight that their number gives back", () => {
    const needed = apWeightFor(60, decimal("0.15"), decimal("0.48"));
    expect(needed.toString()).toBe("18.75");
    expect(portionsIn(needed.times("0.48"), decimal("0.15")).count).toBe(60);
  });

  it("refuse what is nothing", () => {
    expect(() => portionsIn(decimal(1), decimal(0))).toThrow(new RangeError("the portion is not above zero"));
    expect(() => apWeightFor(1, decimal(1), decimal(0))).toThrow(
      new RangeError("the usable fraction is not above zero"),
    );
  });
});
