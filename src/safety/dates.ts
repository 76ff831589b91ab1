import type { RulesOf } from "../kitchen/index.js";

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

/** Days from 1 January of year 1 to an ISO 8601 date ("2026-10-02"), without clocks or time zones. */
export function dayNumber(date: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (match === null) throw new RangeError(`"${date}" is not a date like 2026-10-02`);
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const number = numberOf(year, month, day);
  if (year < 1 || month < 1 || month > 12 || day < 1 || dateOf(number) !== date)
    throw new RangeError(`there is no ${date} in the calendar`);
  return number;
}

/** The ISO 8601 date of a day number. */
export function dateOf(number: number): string {
  let year = Math.floor(number / 365.2425) + 1;
  while (numberOf(year + 1, 1, 1) <= number) year++;
  while (numberOf(year, 1, 1) > number) year--;
  let month = 12;
  while (numberOf(year, month, 1) > number) month--;
  const day = number - numberOf(year, month, 1) + 1;
  return [String(year).padStart(4, "0"), String(month).padStart(2, "0"), String(day).padStart(2, "0")].join(
    "-",
  );
}

function numberOf(year: number, month: number, day: number): number {
  const before = year - 1;
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const inYear = (DAYS_BEFORE_MONTH[month - 1] ?? 0) + (leap && month > 2 ? 1 : 0);
  return before * 365 + leapDays + inYear + day - 1;
}

/** The last day of something that keeps so many days, the day of preparation being day 1. */
export function lastDayOf(prepared: string, keepsDays: number): string {
  if (!Number.isInteger(keepsDays) || keepsDays < 1)
    throw new RangeError(`a food keeps a whole number of days, at least 1, not ${keepsDays}`);
  return dateOf(dayNumber(prepared) + keepsDays - 1);
}

export interface DateRule {
  /** How long ready-to-eat food that needs temperature control may be held, day of preparation being day 1. */
  readonly days: number;
  readonly heldAtMost: { readonly celsius: number; readonly fahrenheit: number };
  /** Food held this long or less needs no date. */
  readonly from: string;
  readonly source: string;
  readonly basis: "read" | "memory";
}

/**
 * Date marking by whose rules bind. Where the law sets no number of days, the figure is the caution said in the
 * source, and the kitchen's own food safety plan comes first.
 */
export const DATE_RULES = {
  us: {
    days: 7,
    heldAtMost: { celsius: 5, fahrenheit: 41 },
    from: "held over 24 hours",
    source:
      "FDA Food Code 2022, 3-501.17(A), as given by the Southern Nevada Health District and North Carolina",
    basis: "read",
  },
  uk: {
    days: 5,
    heldAtMost: { celsius: 3, fahrenheit: 37 },
    from: "from the day of cooking",
    source:
      "Department of Health (UK), Chilled and Frozen (1989), as given by Lund and Notermans; that day 1 is the day of cooking from memory",
    basis: "memory",
  },
  eu: {
    days: 4,
    heldAtMost: { celsius: 5, fahrenheit: 41 },
    from: "from the day of preparation",
    source:
      "caution of this program, as no number is law: Regulation (EC) 2073/2005 Annex I asks less proof on Listeria of ready-to-eat food with a shelf life of less than five days, from memory",
    basis: "memory",
  },
  france: {
    days: 4,
    heldAtMost: { celsius: 3, fahrenheit: 37 },
    from: "from the day of preparation, day J, to J+3",
    source: "Arrêté of 21 December 2009 (France) on food of animal origin and prepared dishes, from memory",
    basis: "memory",
  },
  australia: {
    days: 5,
    heldAtMost: { celsius: 5, fahrenheit: 41 },
    from: "from the day of preparation",
    source:
      "caution of this program, as no number is law: Australia New Zealand Standard 1.6.1 takes ready-to-eat food with a chilled life of no more than five days not to grow Listeria, from memory",
    basis: "memory",
  },
} as const satisfies Record<RulesOf, DateRule>;
/** The rules that bind where a scenario does not say. */
export const DEFAULT_RULES: RulesOf = "us";

/** The last day of a mixture: that of its earliest-prepared ingredient. Food Code 3-501.17(D). */
export function lastDayOfMixture(
  prepared: readonly string[],
  days: number = DATE_RULES[DEFAULT_RULES].days,
): string {
  if (prepared.length === 0) throw new RangeError("a mixture of nothing has no date");
  return lastDayOf(dateOf(Math.min(...prepared.map(dayNumber))), days);
}

/** Days from one date to another, both counted, in one state; the last may have no end yet. */
export interface Held {
  readonly from: string;
  readonly to: string | null;
  readonly state: "chilled" | "frozen";
}

/**
 * The last day of a food that was chilled and frozen by turns: freezing stops the clock and does not set it
 * back, and a day on which it was chilled at all counts. Null while it is frozen with days left. Food Code
 * 3-501.17 and 3-501.18.
 */
export function discardDate(
  history: readonly Held[],
  days: number = DATE_RULES[DEFAULT_RULES].days,
): string | null {
  let used = 0;
  let counted = Number.NEGATIVE_INFINITY;
  const chilled = history.filter(({ state }) => state === "chilled");
  for (const { from, to } of history)
    if (to !== null && dayNumber(to) < dayNumber(from))
      throw new RangeError(`held from ${from} to ${to} ends before it begins`);
  for (const span of [...chilled].sort((a, b) => dayNumber(a.from) - dayNumber(b.from))) {
    const first = Math.max(dayNumber(span.from), counted + 1);
    const last = first + days - used - 1;
    if (span.to === null || dayNumber(span.to) >= last) return dateOf(last);
    counted = Math.max(counted, dayNumber(span.to));
    used += Math.max(0, counted - first + 1);
  }
  return null;
}
