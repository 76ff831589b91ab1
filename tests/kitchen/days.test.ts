import { describe, expect, it } from "vitest";
import { addDays, daysBetween, isIsoDate } from "../../src/kitchen/index.js";

describe("days of the calendar", () => {
  it("are ISO 8601 dates that exist", () => {
    for (const date of ["2026-10-02", "2024-02-29", "2000-02-29"]) expect(isIsoDate(date), date).toBe(true);
    for (const date of ["2026-02-29", "2100-02-29", "2026-13-01", "2026-1-1", "02.10.2026", ""]) {
      expect(isIsoDate(date), date).toBe(false);
    }
  });

  it("are counted without a time zone, over the ends of months, years and summer time", () => {
    expect(daysBetween("2026-10-02", "2026-10-02")).toBe(0);
    expect(daysBetween("2026-10-24", "2026-10-26")).toBe(2);
    expect(daysBetween("2026-03-28", "2026-03-30")).toBe(2);
    expect(daysBetween("2024-02-28", "2024-03-01")).toBe(2);
    expect(daysBetween("2027-01-01", "2026-12-31")).toBe(-1);
    expect(addDays("2026-12-30", 3)).toBe("2027-01-02");
  });
});
