import type { RulesOf } from "../kitchen/index.js";

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
