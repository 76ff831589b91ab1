import { describe, expect, it } from "vitest";
import {
  COLD_HOLDING,
  COOLING,
  COOLING_FROM_AMBIENT,
  type CookingForm,
  cookingMinimum,
  EGG_STORAGE,
  HOT_HOLDING,
  REHEATING,
  REHEATING_PROCESSED,
  ROAST_HOLDING,
  strictestMinimum,
  type Temperature,
  THAWING_WATER,
  TIME_AS_CONTROL,
  temperatureText,
} from "../../src/safety/index.js";

const text = ({ temperature }: { temperature: Temperature }) => temperatureText(temperature);

describe("temperatures of the FDA Food Code, both scales as printed", () => {
  it("holding: 5 C (41 F) cold, 57 C (135 F) hot, roasts 54 C (130 F), air round eggs 7 C (45 F)", () => {
    // 3-501.16 and 3-501.14(D), read in 16 Del. Admin. Code.
    expect([COLD_HOLDING, HOT_HOLDING, ROAST_HOLDING, EGG_STORAGE].map(text)).toEqual([
      "5 C (41 F)",
      "57 C (135 F)",
      "54 C (130 F)",
      "7 C (45 F)",
    ]);
  });

  it("cooling: 57 to 21 C in 2 hours, to 5 C in 6 altogether; from ambient in 4", () => {
    // 3-501.14(A) and (B), read in 16 Del. Admin. Code, Maine 10-144-200 and Tennessee 0080-04-09-.03.
    expect(
      COOLING.map(({ from, to, withinHours }) => [from.celsius, to.celsius, to.fahrenheit, withinHours]),
    ).toEqual([
      [57, 21, 70, 2],
      [57, 5, 41, 6],
    ]);
    expect(COOLING_FROM_AMBIENT).toMatchObject({ to: { celsius: 5, fahrenheit: 41 }, withinHours: 4 });
    // 3-501.13, read in the Maine and Tennessee codes.
    expect(text(THAWING_WATER)).toBe("21 C (70 F)");
  });

  it("reheating for hot holding: 74 C (165 F) for 15 seconds within 2 hours; processed food 57 C (135 F)", () => {
    // 3-403.11, read in Wis. Admin. Code ATCP 75 and 16 Del. Admin. Code.
    expect(REHEATING).toMatchObject({
      temperature: { celsius: 74, fahrenheit: 165 },
      seconds: 15,
      withinHours: 2,
    });
    expect(REHEATING_PROCESSED).toMatchObject({
      temperature: { celsius: 57, fahrenheit: 135 },
      withinHours: 2,
    });
  });

  it("time as control: 4 hours, or 6 from 5 C never above 21 C", () => {
    // 3-501.19, from memory.
    expect(TIME_AS_CONTROL).toMatchObject({
      hours: 4,
      coldHours: 6,
      coldMost: { celsius: 21, fahrenheit: 70 },
    });
  });

  // 3-401.11: 165 F poultry and stuffed (Wis. Admin. Code ATCP 75 appendix; at once in 2022), 145 F for 15 s intact
  // (a licence text quoting the Code); 155 F for 17 s and plants' 135 F (3-401.13), from memory.
  it.each<[Parameters<typeof cookingMinimum>[0], CookingForm, string | null]>([
    ["poultry", "intact", "74 C (165 F)"],
    ["poultry", "minced", "74 C (165 F)"],
    ["meat", "intact", "63 C (145 F)"],
    ["meat", "minced", "68 C (155 F)"],
    ["meat", "stuffed", "74 C (165 F)"],
    ["fish", "intact", "63 C (145 F)"],
    ["fish", "minced", "68 C (155 F)"],
    ["egg", "intact", "63 C (145 F)"],
    ["egg", "pooled", "68 C (155 F)"],
    ["egg", "hot held", "68 C (155 F)"],
    ["plant", "hot held", "57 C (135 F)"],
    ["plant", "intact", null],
  ])("%s, %s: %s", (handling, form, wanted) => {
    const limit = cookingMinimum(handling, form);
    expect(limit === null ? null : text(limit)).toBe(wanted);
  });

  it("a dish of several kinds takes the strictest", () => {
    expect(strictestMinimum(["plant", "meat", "poultry"], "intact")?.temperature.celsius).toBe(74);
    expect(strictestMinimum(["plant", "fish"], "minced")?.temperature.celsius).toBe(68);
    expect(strictestMinimum(["plant"], "intact")).toBeNull();
    expect(strictestMinimum([], "hot held")).toBeNull();
  });

  it("each pair is one temperature to the nearest degree of the code's rounding", () => {
    const limits = [COLD_HOLDING, HOT_HOLDING, ROAST_HOLDING, EGG_STORAGE, THAWING_WATER, REHEATING];
    for (const { temperature } of limits)
      expect(Math.abs(temperature.fahrenheit - (temperature.celsius * 9) / 5 - 32)).toBeLessThan(1.0);
  });
});
