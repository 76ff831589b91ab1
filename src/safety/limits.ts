import type { Handling } from "../kitchen/index.js";

/** A temperature as both scales print it; the two are the code's own pair, not computed from each other. */
export interface Temperature {
  readonly celsius: number;
  readonly fahrenheit: number;
}

export const at = (celsius: number, fahrenheit: number): Temperature => ({ celsius, fahrenheit });

export interface CookingLimit {
  readonly temperature: Temperature;
  /** Paragraph of the FDA Food Code. */
  readonly paragraph: string;
  readonly basis: "read" | "memory";
}

/** At once; 15 seconds in codes before 2017. */
const POULTRY: CookingLimit = {
  temperature: at(74, 165),
  paragraph: "3-401.11(A)(3)",
  basis: "read",
};
/** Minced meat and fish, pooled or hot-held eggs: for 17 seconds, 15 in codes before 2017. */
const MINCED: CookingLimit = {
  temperature: at(68, 155),
  paragraph: "3-401.11(A)(2)",
  basis: "memory",
};

/**
 * The core temperature that does for whatever is cooked of a handling class, minced or pooled too, but not stuffed;
 * null where the code sets none (plants not held hot).
 */
export function cookingMinimum(handling: Handling): CookingLimit | null {
  if (handling === "plant") return null;
  return handling === "poultry" ? POULTRY : MINCED;
}

/** "74 C (165 F)". */
export function temperatureText({ celsius, fahrenheit }: Temperature): string {
  return `${celsius} C (${fahrenheit} F)`;
}
