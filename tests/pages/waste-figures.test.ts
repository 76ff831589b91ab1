import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wasteCompared, wasteFigures, wasteLine, wasteText } from "../../src/pages/waste-figures.js";
import { writingFor } from "../../src/pages/writing.js";
import {
  Decimal,
  grams,
  milligrams,
  roundTogether,
  scale,
  total,
  type Weight,
} from "../../src/quantity/index.js";
import { cooksWasteOfAll } from "../../src/waste-accounts/account.js";
import type { CooksWaste } from "../../src/waste-accounts/index.js";

const SEED = 4711;
console.info(`waste figures: seed ${SEED}`);

const writing = writingFor({ locale: "en-GB", currency: "EUR", scaleStep: grams("1") });
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

/** At what part of their weight peel, unused parts and what is given away count. */
function countingOf(peel: string, unused: string, given: string): NonNullable<CooksWaste["counts"]> {
  return {
    avoidablePeel: new Decimal(peel),
    unusedUsable: new Decimal(unused),
    givenAway: new Decimal(given),
  };
}

/** Weights in grams; what is counted is worked out here from the shares alone. */
function wasteWith(
  weights: Partial<Record<"food" | "lost" | "peel" | "unused" | "given", string>>,
  counts: NonNullable<CooksWaste["counts"]> = countingOf("1", "0", "0"),
  unusedParts: CooksWaste["unusedParts"] = [],
): CooksWaste {
  const { food = "0", lost = "0", peel = "0", unused = "0", given = "0" } = weights;
  const counted = [
    grams(food),
    grams(lost),
    scale(grams(peel), new Decimal(counts.avoidablePeel)),
    scale(grams(unused), new Decimal(counts.unusedUsable)),
    scale(grams(given), new Decimal(counts.givenAway)),
  ];
  return {
    foodWasted: grams(food),
    lostFood: grams(lost),
    avoidablePeel: grams(peel),
    unusedUsable: grams(unused),
    givenAway: grams(given),
    counted: total(counted),
    unusedParts,
    counts,
  };
}

const texts = (waste: CooksWaste): string[] =>
  wasteFigures(waste, writing).map((figure) => plain(wasteText(figure, writing)));

describe("the figures of waste", () => {
  it("are wasted food alone where nothing else is there", () => {
    expect(texts(wasteWith({}))).toEqual(["Wasted food 0 g"]);
    expect(wasteLine(wasteWith({ food: "40" }), writing)).toBe("");
    // What the scale does not show is no line.
    expect(texts(wasteWith({ food: "40", lost: "0.3" }))).toEqual(["Wasted food 40 g"]);
  });

  it("name what is unused, say what does not count, and what does", () => {
    const parts = ["chicken carcass", "cod frame", "cod head", "leek trim", "pea pod"].map((part, index) => ({
      part,
      weight: grams(String(100 - index)),
    }));
    const all = { food: "12.4", lost: "38.4", peel: "14.4", unused: "490", given: "500" };
    expect(texts(wasteWith(all, undefined, parts))).toEqual([
      "Wasted food 12 g",
      // 12.4 + 38.4 + 14.4 = 65.2: of the three remainders alike the first is rounded up.
      "Lost food 39 g: in cutting and steps, beyond need",
      "Avoidable peel 14 g",
      "Unused though usable 490 g: chicken carcass, cod frame, cod head and 2 more; not counted",
      "Given away 500 g: not counted",
      "Counted by the aim 65 g: wasted food, lost food and avoidable peel",
    ]);
    expect(plain(wasteLine(wasteWith(all, undefined, parts), writing))).toBe(
      "wasted food 12 g, lost food 39 g, avoidable peel 14 g, unused though usable 490 g (not counted), given away 500 g (not counted)",
    );
    const counts = countingOf("0", "0.25", "1");
    expect(texts(wasteWith({ ...all, lost: "0" }, counts, parts.slice(0, 1)))).toEqual([
      "Wasted food 12 g",
      "Avoidable peel 14 g: not counted",
      "Unused though usable 490 g: chicken carcass; 25% of it counted",
      "Given away 500 g",
      // 12.4 + 490/4 + 500 = 634.9
      "Counted by the aim 635 g: wasted food, 25% of what is unused though usable and given away",
    ]);
  });

  it("add up to what is counted, wasted food to the nearest step", () => {
    const weight = fc.oneof(fc.constant(0n), fc.bigInt({ min: 0n, max: 99_999n })).map(milligrams);
    const shares = fc.constantFrom("0", "1");
    fc.assert(
      fc.property(
        weight,
        weight,
        weight,
        weight,
        shares,
        shares,
        (food, lost, peel, unused, peelShare, unusedShare) => {
          const text = (of: Weight): string => new Decimal(of.toString()).div(1000).toFixed();
          const waste = wasteWith(
            { food: text(food), lost: text(lost), peel: text(peel), unused: text(unused) },
            countingOf(peelShare, unusedShare, "0"),
          );
          const figures = wasteFigures(waste, writing);
          const nearest = (of: Weight): Weight | undefined => roundTogether([of], grams("1"))[0];
          expect(figures[0]?.weight).toBe(nearest(food));
          const counting = figures.filter(({ kind, share }) => kind !== "counted" && share === "");
          const counted = figures.find(({ kind }) => kind === "counted")?.weight ?? figures[0]?.weight;
          expect(counted).toBe(nearest(waste.counted));
          expect(total(counting.map(({ weight: shown }) => shown))).toBe(counted);
          for (const { kind, weight: shown } of figures) {
            const off = shown - waste[kind === "counted" ? "counted" : kind];
            expect(off < 1000n && off > -1000n).toBe(true);
          }
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
  });

  it("of several plans are sums, and say no share where the plans count otherwise", () => {
    const carcass = [{ part: "chicken carcass", weight: grams("100") }];
    const one = wasteWith({ food: "10", peel: "5", unused: "100" }, undefined, carcass);
    const both = cooksWasteOfAll([one, wasteWith({ food: "1", unused: "100" }, undefined, carcass)]);
    expect(both.unusedParts).toEqual([{ part: "chicken carcass", weight: grams("200") }]);
    expect(texts(both)).toEqual([
      "Wasted food 11 g",
      "Avoidable peel 5 g",
      "Unused though usable 200 g: chicken carcass; not counted",
      "Counted by the aim 16 g: wasted food and avoidable peel",
    ]);
    const other = wasteWith({ peel: "7" }, countingOf("0", "0", "0"));
    expect(texts(cooksWasteOfAll([one, other])).slice(1)).toEqual([
      "Avoidable peel 12 g",
      "Unused though usable 100 g: chicken carcass",
      "Counted by the aim 15 g: as each plan counts",
    ]);
  });

  it("stand side by side where either plan has them", () => {
    const rows = wasteCompared(wasteWith({ food: "10" }), wasteWith({ food: "12", peel: "3" }), writing).map(
      ({ figure, planned, actual }) => [figure.name, planned, actual],
    );
    expect(rows).toEqual([
      ["Wasted food", grams("10"), grams("12")],
      ["Avoidable peel", grams("0"), grams("3")],
      ["Counted by the aim", grams("10"), grams("15")],
    ]);
  });
});
