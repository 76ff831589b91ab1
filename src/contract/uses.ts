import type { Decimal, Weight } from "../quantity/index.js";

/** What can be done with an offcut before it must be used; grams of the offcut itself unless stated. */
export interface Uses {
  readonly part: string;
  readonly weight: Weight;
  /** Last day it may be used, ISO 8601; null where it outlasts any plan. */
  readonly useBy: string | null;
  /** Dishes, those that take most of it first, and of equals the cheaper. */
  readonly dishes: readonly DishUse[];
  /** What else can be made of it to keep it: stock, or frozen; the longest kept first. */
  readonly resorts: readonly LastResort[];
  /** What to beware of, and who says so. */
  readonly cautions: readonly string[];
  /** Where it may be given away: a staff meal, a donation. */
  readonly givenTo: readonly string[];
}

export interface DishUse {
  readonly dish: string;
  /** Services in time. */
  readonly services: readonly number[];
  readonly takes: Decimal;
  readonly leaves: Decimal;
  /** Whole portions, in batches where the dish has them, that have as much of it as the dish may take. */
  readonly portions: number;
  /** Portions cooked: as many, or the fewest the dish is cooked in. */
  readonly cooked: number;
  /** Steps it is worked by first. */
  readonly steps: readonly string[];
  readonly needs: readonly Need[];
  /** Staples, and the least that the parts it needs beside can cost; the offcut itself costs no more. */
  readonly costPerPortion: Decimal;
  readonly allergens: readonly string[];
  /** What must be done to make it safe. */
  readonly critical: readonly string[];
}

/** What a dish needs beside for the portions cooked. */
export type Need =
  | { readonly kind: "part"; readonly parts: readonly string[]; readonly grams: Decimal }
  | {
      readonly kind: "staple";
      readonly name: string;
      readonly amount: { value: Decimal; unit: string } | null;
    };

export interface LastResort {
  readonly kind: "stock" | "frozen";
  readonly part: string;
  readonly steps: readonly string[];
  readonly grams: Decimal;
  readonly keepsUntil: string | null;
}
