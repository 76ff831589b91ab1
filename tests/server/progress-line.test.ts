import { describe, expect, it } from "vitest";
import { progressLine } from "../../src/planning/index.js";

describe("the line on a plan being made", () => {
  it.each([
    [{ stage: "waste", best: null, bound: null }, "Least waste: no plan in hand yet"],
    [{ stage: "cost", best: 10, bound: null }, "Least cost: a plan in hand, nothing proved yet"],
    [
      { stage: "cost", best: 10, bound: Number.NEGATIVE_INFINITY },
      "Least cost: a plan in hand, nothing proved yet",
    ],
    [
      { stage: "balanced", best: 100, bound: 99.99 },
      "Least cost and waste together: a plan in hand, at most 0.1 % from the best there can be",
    ],
    [
      { stage: "waste", best: 0.4, bound: 0.1 },
      "Least waste: a plan in hand, at most 75 % from the best there can be",
    ],
    [{ stage: "freshest", best: 12, bound: 12 }, "Cut latest before use: proved"],
    [{ stage: "waste", best: 0, bound: 0 }, "Least waste: proved"],
  ])("for %o says how far the proof has come", (progress, text) => {
    expect(progressLine({ ...progress, seconds: 3.4 }, 10)).toBe(`${text}; 3 s of at most 10 s`);
  });
});
