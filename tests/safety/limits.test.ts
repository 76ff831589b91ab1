import { describe, expect, it } from "vitest";
import type { Handling } from "../../src/kitchen/index.js";
import { cookingMinimum, temperatureText } from "../../src/safety/index.js";

describe("the core temperature of the FDA Food Code for whatever is made of an item, both scales as printed", () => {
  // 3-401.11: 165 F poultry (Wis. Admin. Code ATCP 75 appendix); 155 F minced and pooled, from memory.
  it.each<[Handling, string | null]>([
    ["poultry", "74 C (165 F)"],
    ["meat", "68 C (155 F)"],
    ["fish", "68 C (155 F)"],
    ["egg", "68 C (155 F)"],
    ["plant", null],
  ])("%s: %s", (handling, wanted) => {
    const limit = cookingMinimum(handling);
    expect(limit === null ? null : temperatureText(limit.temperature)).toBe(wanted);
  });
});
