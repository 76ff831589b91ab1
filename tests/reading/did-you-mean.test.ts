import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { didYouMean } from "../../src/reading/index.js";

const PARTS = ["marrow ring", "marrow dice", "marrow peel", "broccoli floret", "broccoli stem"];

describe("didYouMean", () => {
  it.each([
    ["marow ring", "marrow ring"],
    ["Marrow Ring", "marrow ring"],
    ["broccoli floretts", "broccoli floret"],
    ["brocoli stem", "broccoli stem"],
    ["  marrow dice ", "marrow dice"],
    ["mrarow dice", "marrow dice"],
  ])("takes %s for %s", (written, meant) => {
    expect(didYouMean(written, PARTS)).toBe(meant);
  });

  it("takes the last words of one name for it, and of several for none", () => {
    expect(didYouMean("floret", PARTS)).toBe("broccoli floret");
    expect(didYouMean("stem", [...PARTS, "chard stem"])).toBeNull();
  });

  it("counts two letters changed about as one slip", () => {
    expect(didYouMean("mian", ["main", "side"])).toBe("main");
    expect(didYouMean("GPB", ["EUR", "GBP", "USD"])).toBe("GBP");
  });

  it("says nothing where nothing is near", () => {
    expect(didYouMean("turnip leaf", PARTS)).toBeNull();
    expect(didYouMean("", PARTS)).toBeNull();
    expect(didYouMean("C", ["A", "B"])).toBeNull();
    expect(didYouMean("marrow ring", [])).toBeNull();
  });

  it("finds any name with one letter lost, in names of four letters and more", () => {
    const seed = 1965;
    console.info(`did you mean: seed ${seed}`);
    const property = fc.property(fc.constantFrom(...PARTS), fc.nat(), (name, at) => {
      const index = at % name.length;
      expect(didYouMean(name.slice(0, index) + name.slice(index + 1), PARTS)).toBe(name);
    });
    fc.assert(property, { seed, numRuns: 300 });
  });
});
