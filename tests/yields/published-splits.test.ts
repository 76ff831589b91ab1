import { describe, expect, it } from "vitest";
import { Decimal, toGrams } from "../../src/quantity/index.js";
import { loadYieldTables } from "../../src/yields/index.js";

const { tables } = loadYieldTables();

function entry(item: string, form: string) {
  const found = tables.items.find(({ name, form: itsForm }) => name === item && itsForm === form);
  if (found === undefined) throw new Error(`no ${item} (${form})`);
  return found;
}

/** Percent of the weight bought, as the tables have it. */
function percent(item: string, form: string, breakdown: string, part: string): number {
  const row = entry(item, form)
    .breakdowns.find(({ name }) => name === breakdown)
    ?.parts.find(({ part: full }) => full === `${item} ${part}`);
  if (row === undefined) throw new Error(`no ${part} in ${breakdown} of ${item} (${form})`);
  return row.fraction.times(100).toNumber();
}

describe("splits of whole items against published weighings", () => {
  it("chicken: the Canadian Nutrient File's 500 g bird, and the USDA's 276 g of meat and skin in 1 lb (05006)", () => {
    const whole = "whole, with giblets";
    expect(percent("chicken", whole, "cut up", "breast")).toBeCloseTo((96 / 500) * 100, 5);
    expect(percent("chicken", whole, "boned out", "boneless meat and skin")).toBeCloseTo(
      (304 / 500) * 100,
      5,
    );
    expect(percent("chicken", whole, "boned out", "boneless meat and skin")).toBeCloseTo(
      (276 / 453.59237) * 100,
      0,
    );
    expect(percent("chicken", whole, "boned out", "giblets")).toBeCloseTo((25 / 500) * 100, 5);
    const legBone = 0.27;
    expect(percent("chicken", whole, "cut up", "leg") * (1 - legBone)).toBeCloseTo((111 / 500) * 100, 1);
    const neckBone = 0.36;
    expect(percent("chicken", whole, "cut up", "neck") * (1 - neckBone)).toBeCloseTo((17 / 500) * 100, 1);
  });

  it("large egg: USDA SR28 has 33 g of white (01124), 17 g of yolk (01125) and 12 % shell (01123)", () => {
    const egg = entry("egg", "hen, large");
    const grams = toGrams(egg.unitWeight).toNumber();
    expect((percent("egg", "hen, large", "separated", "white") / 100) * grams).toBeCloseTo(33, 0);
    expect((percent("egg", "hen, large", "separated", "yolk") / 100) * grams).toBeCloseTo(17, 0);
    expect(grams * 0.88).toBeCloseTo(50, 0);
  });

  it("unit weights: USDA SR28 household weights leave refuse out", () => {
    const weights: readonly (readonly [string, string, number, number])[] = [
      ["cauliflower", "untrimmed head", 588, 61],
      ["onion", "dry, brown", 110, 10],
      ["apple", "eating", 182, 10],
      ["leek", "untrimmed", 89, 56],
      ["pineapple", "with crown", 905, 49],
      ["watermelon", "whole", 4518, 48],
      ["sweetcorn", "ear in husk", 102, 64],
      ["egg", "hen, jumbo", 63, 12],
    ];
    for (const [item, form, net, refuse] of weights) {
      const bought = new Decimal(net).div(new Decimal(100 - refuse).div(100));
      expect(toGrams(entry(item, form).unitWeight).minus(bought).abs().lte("0.5"), item).toBe(true);
    }
  });

  it("juice: an orange yields 86 g (09206), a grapefruit 196 g (09128), a coconut 206 g of water (12119)", () => {
    const juice = (item: string, form: string, breakdown: string, part: string) =>
      (percent(item, form, breakdown, part) / 100) * toGrams(entry(item, form).unitWeight).toNumber();
    expect(juice("orange", "unwaxed", "juice and zest", "juice")).toBeCloseTo(86, 0);
    expect(Math.abs(juice("grapefruit", "pink or white", "juice", "juice") - 196)).toBeLessThan(2);
    expect(Math.abs(juice("coconut", "mature, husked", "water, meat and shell", "water") - 206)).toBeLessThan(
      10,
    );
  });

  it("the form bought: cauliflower gives 39 % untrimmed (11135) and 0.8926 trimmed (USDA ERS prices, 2022)", () => {
    expect(percent("cauliflower", "untrimmed head", "florets", "floret")).toBe(39);
    expect(Math.abs(percent("cauliflower", "trimmed head", "florets", "floret") - 89.26)).toBeLessThan(0.5);
  });

  it("fish: fillets by the FAO CWP Handbook of Fishery Statistics, factors to live weight", () => {
    const factors: readonly (readonly [string, string, string, string, number, number])[] = [
      ["mackerel", "whole, ungutted", "fillets", "fillet", 1, 1.95],
      ["herring", "whole, ungutted", "butterfly fillets", "fillet", 1, 1.62],
      ["cod", "gutted, head on", "fillets, skin on", "skin-on fillet", 1.2, 2.45],
      ["haddock", "gutted, head on", "fillets", "fillet", 1.14, 2.77],
      ["hake", "gutted, head on", "fillets", "fillet", 1.16, 2.53],
      ["plaice", "gutted, head on", "four fillets", "fillet", 1.1, 2.48],
    ];
    for (const [item, form, breakdown, part, bought, fillet] of factors) {
      expect(percent(item, form, breakdown, part), item).toBeCloseTo((bought / fillet) * 100, 1);
    }
  });

  it("broccoli: stem and leaf add about what a study of 50 vegetables gained (23.3 points)", () => {
    // Journal of Cookery Science of Japan 45(3), 204 (2012), abstract.
    const main = percent("broccoli", "untrimmed head", "florets", "floret");
    const food = entry("broccoli", "untrimmed head")
      .breakdowns.find(({ name }) => name === "florets")
      ?.parts.filter((part) => part.class === "food")
      .reduce((sum, { fraction }) => sum.plus(fraction), new Decimal(0));
    expect(Math.abs((food?.times(100).toNumber() ?? 0) - main - 23.3)).toBeLessThan(8);
  });
});
