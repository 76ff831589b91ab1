import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  DATE_RULES,
  DEFAULT_RULES,
  dateOf,
  dayNumber,
  discardDate,
  type Held,
  lastDayOf,
  lastDayOfMixture,
} from "../../src/safety/index.js";

const anyDay = fc.integer({ min: dayNumber("1900-01-01"), max: dayNumber("2400-12-31") });

describe("date marking, against published examples", () => {
  it("1 April + 7 days is 7 April", () => {
    // Southern Nevada Health District, date-marking FAQ: prepared or opened 1 April, use by 7 April.
    expect(lastDayOf("2024-04-01", 7)).toBe("2024-04-07");
  });

  it("burgers of 1 June put in chili on 3 June are used by 7 June", () => {
    // Southern Nevada Health District, date-marking FAQ; Food Code 3-501.17(D).
    expect(lastDayOfMixture(["2024-06-03", "2024-06-01"])).toBe("2024-06-07");
  });

  it("cooked 1 October, frozen the 3rd, thawed the 10th: day 3, discarded by midnight of the 14th", () => {
    // North Carolina Food Code date-marking sheet (studylib.net/doc/13385666).
    const held: Held[] = [
      { from: "2014-10-01", to: "2014-10-02", state: "chilled" },
      { from: "2014-10-03", to: "2014-10-09", state: "frozen" },
      { from: "2014-10-10", to: null, state: "chilled" },
    ];
    expect(discardDate(held)).toBe("2014-10-14");
    expect(discardDate(held.slice(0, 2))).toBeNull();
    // Day 3 is the day of thawing: with a limit of 3 days it is the last.
    expect(discardDate(held, 3)).toBe("2014-10-10");
    expect(discardDate(held, 2)).toBe("2014-10-02");
  });

  it("the United States' limit is the default and seven days", () => {
    // FDA Food Code 2022, 3-501.17(A), as given by the two documents above.
    expect(DATE_RULES[DEFAULT_RULES]).toMatchObject({
      days: 7,
      heldAtMost: { celsius: 5, fahrenheit: 41 },
      basis: "read",
    });
    // Department of Health (UK) 1989, as given by Lund and Notermans: five days at 0 to 3 C.
    expect(DATE_RULES.uk).toMatchObject({ days: 5, heldAtMost: { celsius: 3 } });
  });
});

describe("the calendar", () => {
  it("agrees with the runtime's own over five centuries", () => {
    fc.assert(
      fc.property(anyDay, (day) => {
        const date = dateOf(day);
        expect(dayNumber(date)).toBe(day);
        const utc = new Date(Date.UTC(1970, 0, 1) + (day - dayNumber("1970-01-01")) * 86_400_000);
        expect(date).toBe(utc.toISOString().slice(0, 10));
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  it("crosses months, leap days and years", () => {
    expect(lastDayOf("2024-02-26", 7)).toBe("2024-03-03");
    expect(lastDayOf("2026-02-26", 7)).toBe("2026-03-04");
    expect(lastDayOf("2100-02-28", 2)).toBe("2100-03-01");
    expect(lastDayOf("2026-12-28", 7)).toBe("2027-01-03");
    expect(lastDayOf("2026-10-02", 1)).toBe("2026-10-02");
  });

  it.each(["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-04-00", "0000-01-01"])(
    "has no %s",
    (date) => {
      expect(() => dayNumber(date)).toThrow(`there is no ${date} in the calendar`);
    },
  );

  it.each(["2 October 2026", "2026-10-2", "2026-10-02T00:00", ""])("does not read %j", (date) => {
    expect(() => dayNumber(date)).toThrow(`"${date}" is not a date like 2026-10-02`);
  });

  it.each([0, -1, 1.5])("refuses a life of %d days", (days) => {
    expect(() => lastDayOf("2026-10-02", days)).toThrow(`not ${days}`);
  });

  it("refuses a mixture of nothing and a span that ends before it begins", () => {
    expect(() => lastDayOfMixture([])).toThrow("a mixture of nothing has no date");
    const span: Held = { from: "2026-10-03", to: "2026-10-02", state: "frozen" };
    expect(() => discardDate([span])).toThrow("held from 2026-10-03 to 2026-10-02 ends before it begins");
  });
});

describe("freezing", () => {
  /** Days told one by one, each chilled or frozen, the last going on. */
  const days = fc.array(fc.boolean(), { minLength: 1, maxLength: 40 });

  it("stops the clock and does not set it back, however often", () => {
    fc.assert(
      fc.property(anyDay, days, fc.integer({ min: 1, max: 10 }), (start, chilled, limit) => {
        const history: Held[] = chilled.map((cold, index) => ({
          from: dateOf(start + index),
          to: dateOf(start + index),
          state: cold ? "chilled" : "frozen",
        }));
        history.push({ from: dateOf(start + chilled.length), to: null, state: "chilled" });
        let [day, used] = [start - 1, 0];
        while (used < limit) {
          day++;
          if (chilled[day - start] ?? true) used++;
        }
        expect(discardDate(history, limit)).toBe(dateOf(day));
        expect(discardDate([...history].reverse(), limit)).toBe(dateOf(day));
      }),
      { seed: 12, numRuns: 500 },
    );
  });

  it("counts a day on which the food was both, and a day told twice, once", () => {
    const history: Held[] = [
      { from: "2026-10-01", to: "2026-10-03", state: "chilled" },
      { from: "2026-10-03", to: "2026-10-20", state: "frozen" },
      { from: "2026-10-02", to: "2026-10-03", state: "chilled" },
      { from: "2026-10-20", to: null, state: "chilled" },
    ];
    expect(discardDate(history)).toBe("2026-10-23");
  });

  it("never gives more than the limit of chilled days", () => {
    expect(discardDate([{ from: "2026-10-01", to: "2026-10-30", state: "chilled" }])).toBe("2026-10-07");
    expect(discardDate([{ from: "2026-10-01", to: null, state: "frozen" }])).toBeNull();
  });
});
