import type { RulesOf } from "../kitchen/index.js";
import { at, type Temperature, temperatureText } from "./limits.js";

/** Limits of time and temperature that a dish sheet prints, by whose rules bind. */
export interface HoldingRules {
  /** Whose rules they are, as printed. */
  readonly name: string;
  readonly cold: Temperature;
  readonly hot: Temperature;
  /** Each stage from the first's start, in hours. */
  readonly cooling: readonly {
    readonly from: Temperature;
    readonly to: Temperature;
    readonly withinHours: number;
  }[];
  readonly reheating: string;
  /** Food neither hot nor cold: how long, and what then. */
  readonly without: string;
  /** What the law leaves to the kitchen, or sets beside these. */
  readonly note: string | null;
  readonly source: string;
  readonly basis: "read" | "memory";
}

/** Cooling, holding and reheating by whose rules bind. */
export const HOLDING_RULES = {
  us: {
    name: "FDA Food Code 2022",
    cold: at(5, 41),
    hot: at(57, 135),
    cooling: [
      { from: at(57, 135), to: at(21, 70), withinHours: 2 },
      { from: at(57, 135), to: at(5, 41), withinHours: 6 },
    ],
    reheating: "to 74 C (165 F) for 15 seconds within 2 h",
    // 3-501.19 from memory; it lets food that starts at 5 C warm to 21 C in 6 hours.
    without: "at most 4 h, then thrown away",
    note: null,
    source: "FDA Food Code 2022, 3-501.14(A), 3-501.16(A)(1), 3-501.16(A)(2), 3-501.19 and 3-403.11(A), (D)",
    basis: "read",
  },
  uk: {
    name: "UK law and cook-chill guidelines",
    cold: at(3, 37),
    hot: at(63, 145),
    cooling: [{ from: at(70, 158), to: at(3, 37), withinHours: 1.5 }],
    reheating: "to 70 C (158 F) for 2 minutes, in Scotland to 82 C (180 F)",
    without: "cold food once for at most 4 h, hot food once for at most 2 h",
    note: "the law's own limit for cold food is 8 C (46 F); the date of five days is for food held at 3 C (37 F) or less",
    source:
      "Food Safety and Hygiene (England) Regulations 2013 Schedule 4 and its like in Scotland, Wales and Northern Ireland; Department of Health, Chilled and Frozen (1989); both from memory",
    basis: "memory",
  },
  eu: {
    name: "EU hygiene law",
    cold: at(5, 41),
    hot: at(63, 145),
    cooling: [{ from: at(63, 145), to: at(10, 50), withinHours: 2 }],
    reheating: "through to 70 C (158 F) for 2 minutes",
    without: "as short as the kitchen's own food safety plan says",
    note: "Regulation (EC) 852/2004 asks to cool as quickly as possible and names no figures: these are those of member states and of good practice",
    source: "Regulation (EC) 852/2004 Annex II chapter IX, from memory",
    basis: "memory",
  },
  france: {
    name: "French arrêté of 21 December 2009",
    cold: at(3, 37),
    hot: at(63, 145),
    cooling: [{ from: at(63, 145), to: at(10, 50), withinHours: 2 }],
    reheating: "to 63 C (145 F) within 1 h, and eaten that day",
    without: "as short as the kitchen's own food safety plan says",
    note: null,
    source: "Arrêté of 21 December 2009 (France), from memory",
    basis: "memory",
  },
  australia: {
    name: "Australia New Zealand Standard 3.2.2",
    cold: at(5, 41),
    hot: at(60, 140),
    cooling: [
      { from: at(60, 140), to: at(21, 70), withinHours: 2 },
      { from: at(60, 140), to: at(5, 41), withinHours: 6 },
    ],
    reheating: "rapidly to 60 C (140 F)",
    without: "under 2 h back to the cold, under 4 h eaten at once, then thrown away",
    note: null,
    source: "Australia New Zealand Food Standards Code, Standard 3.2.2 clauses 6 to 8 and 25, from memory",
    basis: "memory",
  },
} as const satisfies Record<RulesOf, HoldingRules>;

/** The limits as one line each for a dish sheet; reheating is for food that was cooled before. */
export function holdingLines(rules: RulesOf): string[] {
  const { cold, hot, cooling, reheating, without, note, source }: HoldingRules = HOLDING_RULES[rules];
  const [first] = cooling;
  const stages = cooling.map(({ to, withinHours }) => `${temperatureText(to)} within ${withinHours} h`);
  const from = first === undefined ? "" : ` from ${temperatureText(first.from)}`;
  const counted = stages.length > 1 ? ", both counted from the start" : "";
  return [
    `Hold hot at ${temperatureText(hot)} or more, cold at ${temperatureText(cold)} or less.`,
    `Cool cooked food${from} to ${stages.join(" and ")}${counted}.`,
    `Reheat what was cooled ${reheating}.`,
    `Neither hot nor cold: ${without}.`,
    ...(note === null ? [] : [`Note: ${note}.`]),
    `(${source})`,
  ];
}
