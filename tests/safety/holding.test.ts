import { describe, expect, it } from "vitest";
import { RULES_OF } from "../../src/kitchen/index.js";
import { holdingLines } from "../../src/safety/index.js";
import { DATE_RULES, HOLDING_RULES } from "../support/safety-tables.js";

describe("what a dish sheet says of holding, cooling and reheating", () => {
  it("is, in the US, the Food Code's", () => {
    // 3-501.14(A), 3-501.16, 3-501.19, 3-403.11: read in 16 Del. Admin. Code and Wis. Admin. Code ATCP 75.
    expect(holdingLines("us")).toEqual([
      "Hold hot at 57 C (135 F) or more, cold at 5 C (41 F) or less.",
      "Cool cooked food from 57 C (135 F) to 21 C (70 F) within 2 h and 5 C (41 F) within 6 h, both counted from the start.",
      "Reheat what was cooled to 74 C (165 F) for 15 seconds within 2 h.",
      "Neither hot nor cold: at most 4 h, then thrown away.",
      expect.stringMatching(/^\(FDA Food Code 2022, 3-501\.14\(A\), .*3-403\.11/),
    ]);
  });

  it("is, elsewhere, that of the place, said to be from memory", () => {
    // Temperatures of English and Scottish law, the French order and the Australian standard: from memory.
    expect(holdingLines("uk").join(" ")).toMatch(/63 C \(145 F\).*8 C \(46 F\).*from memory/);
    expect(holdingLines("france").join(" ")).toMatch(
      /63 C \(145 F\) to 10 C \(50 F\) within 2 h.*from memory/,
    );
    expect(holdingLines("australia").join(" ")).toMatch(/60 C \(140 F\).*21 C \(70 F\) within 2 h/);
    expect(holdingLines("eu").join(" ")).toContain("names no figures");
    for (const rules of RULES_OF.filter((code) => HOLDING_RULES[code].basis === "memory"))
      expect(HOLDING_RULES[rules].source, rules).toContain("memory");
  });

  it("gives both scales as a pair that agrees to the degree, and cold no warmer than the date rule asks", () => {
    for (const rules of RULES_OF) {
      const { cold, hot, cooling } = HOLDING_RULES[rules];
      for (const { celsius, fahrenheit } of [
        cold,
        hot,
        DATE_RULES[rules].heldAtMost,
        ...cooling.flatMap(({ from, to }) => [from, to]),
      ])
        expect(Math.abs((celsius * 9) / 5 + 32 - fahrenheit), rules).toBeLessThan(1.01);
      expect(cold.celsius, rules).toBeLessThanOrEqual(DATE_RULES[rules].heldAtMost.celsius);
    }
  });
});
