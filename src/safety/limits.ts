import type { Handling } from "../kitchen/index.js";

/** A temperature as both scales print it; the two are the code's own pair, not computed from each other. */
export interface Temperature {
  readonly celsius: number;
  readonly fahrenheit: number;
}

interface Sourced {
  /** Paragraph of the FDA Food Code. */
  readonly paragraph: string;
  readonly basis: "read" | "memory";
}

export interface HoldingLimit extends Sourced {
  readonly temperature: Temperature;
}

export interface CoolingStage extends Sourced {
  readonly from: Temperature;
  readonly to: Temperature;
  /** Hours from the start of cooling, not of the stage. */
  readonly withinHours: number;
}

export interface CookingLimit extends Sourced {
  readonly temperature: Temperature;
  /** Seconds every part is held at it; 0 means at once. */
  readonly seconds: number;
  readonly food: string;
}

export interface ReheatingLimit extends CookingLimit {
  readonly withinHours: number;
}

const at = (celsius: number, fahrenheit: number): Temperature => ({ celsius, fahrenheit });

/** Cold holding of food that needs temperature control: this or less. */
export const COLD_HOLDING: HoldingLimit = {
  temperature: at(5, 41),
  paragraph: "3-501.16(A)(2)",
  basis: "read",
};

/** Hot holding: this or more. */
export const HOT_HOLDING: HoldingLimit = {
  temperature: at(57, 135),
  paragraph: "3-501.16(A)(1)",
  basis: "read",
};

/** Hot holding of roasts cooked by the roast table: this or more. */
export const ROAST_HOLDING: HoldingLimit = {
  temperature: at(54, 130),
  paragraph: "3-501.16(A)(1)",
  basis: "read",
};

/** Air around raw shell eggs: this or less. */
export const EGG_STORAGE: HoldingLimit = { temperature: at(7, 45), paragraph: "3-501.14(D)", basis: "read" };

/** Running water for thawing: this or less. */
export const THAWING_WATER: HoldingLimit = { temperature: at(21, 70), paragraph: "3-501.13", basis: "read" };

/** Cooling of cooked food: both stages, both counted from the start. */
export const COOLING: readonly CoolingStage[] = [
  { from: at(57, 135), to: at(21, 70), withinHours: 2, paragraph: "3-501.14(A)", basis: "read" },
  { from: at(57, 135), to: at(5, 41), withinHours: 6, paragraph: "3-501.14(A)", basis: "read" },
];

/** Cooling of food made from ingredients at room temperature. */
export const COOLING_FROM_AMBIENT: CoolingStage = {
  from: at(21, 70),
  to: at(5, 41),
  withinHours: 4,
  paragraph: "3-501.14(B)",
  basis: "read",
};

/** Time instead of temperature: cold food that starts at 5 C may warm to 21 C, 6 hours; otherwise 4 hours. */
export const TIME_AS_CONTROL = {
  hours: 4,
  coldHours: 6,
  coldStart: at(5, 41),
  coldMost: at(21, 70),
  paragraph: "3-501.19",
  basis: "memory",
} as const;

/** Reheating for hot holding of food cooked and cooled here. */
export const REHEATING: ReheatingLimit = {
  temperature: at(74, 165),
  seconds: 15,
  withinHours: 2,
  food: "food cooked, cooled and reheated for hot holding",
  paragraph: "3-403.11(A), (D)",
  basis: "read",
};

/** Reheating of commercially processed ready-to-eat food for hot holding. */
export const REHEATING_PROCESSED: ReheatingLimit = {
  temperature: at(57, 135),
  seconds: 0,
  withinHours: 2,
  food: "ready-to-eat food from a sealed package of an inspected plant",
  paragraph: "3-403.11(C), (D)",
  basis: "read",
};

export type CookingForm = "intact" | "minced" | "stuffed" | "pooled" | "hot held";

const POULTRY: CookingLimit = {
  temperature: at(74, 165),
  seconds: 0,
  food: "poultry, stuffed food and stuffing (15 seconds in codes before 2017)",
  paragraph: "3-401.11(A)(3)",
  basis: "read",
};
const MINCED: CookingLimit = {
  temperature: at(68, 155),
  seconds: 17,
  food: "minced meat and fish, pooled or hot-held eggs (15 seconds in codes before 2017)",
  paragraph: "3-401.11(A)(2)",
  basis: "memory",
};
const INTACT: CookingLimit = {
  temperature: at(63, 145),
  seconds: 15,
  food: "whole cuts of meat, fish, and eggs for immediate service",
  paragraph: "3-401.11(A)(1)",
  basis: "read",
};
const PLANT: CookingLimit = {
  temperature: at(57, 135),
  seconds: 0,
  food: "plants cooked for hot holding",
  paragraph: "3-401.13",
  basis: "read",
};

/**
 * The least core temperature for food of a handling class in a form; null where the code sets none (plants not
 * held hot). Stuffed food of animals, and stuffing that holds any, counts as poultry.
 */
export function cookingMinimum(handling: Handling, form: CookingForm): CookingLimit | null {
  if (handling === "plant") return form === "hot held" ? PLANT : null;
  if (handling === "poultry" || form === "stuffed") return POULTRY;
  if (form === "minced" || form === "pooled") return MINCED;
  return form === "hot held" && handling === "egg" ? MINCED : INTACT;
}

/** The strictest minimum among the handling classes that go into a dish; null where none applies. */
export function strictestMinimum(handlings: readonly Handling[], form: CookingForm): CookingLimit | null {
  return handlings
    .flatMap((handling) => cookingMinimum(handling, form) ?? [])
    .reduce<CookingLimit | null>(
      (hottest, limit) =>
        hottest === null || limit.temperature.celsius > hottest.temperature.celsius ? limit : hottest,
      null,
    );
}

/** "74 C (165 F)". */
export function temperatureText({ celsius, fahrenheit }: Temperature): string {
  return `${celsius} C (${fahrenheit} F)`;
}
