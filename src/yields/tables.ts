import type { Handling, PartClass } from "../kitchen/index.js";
import type { Decimal, Weight } from "../quantity/index.js";

/** The published and common-practice yields that every kitchen starts from, as read from yield-tables/. */
export interface YieldTables {
  readonly items: readonly TableItem[];
  readonly steps: readonly TableStep[];
  readonly cooking: readonly CookingYield[];
}

/** Where a figure comes from, as its row says. */
export interface Provenance {
  readonly source: string;
  readonly basis: "read" | "memory" | "common practice" | "own test";
}

/** One item in one form; the same item in two forms is two entries. */
export interface TableItem extends Provenance {
  readonly name: string;
  readonly form: string;
  readonly handling: Handling;
  readonly measure: "whole" | "loose";
  readonly unitName: string;
  /** One kilogram for a loose item. */
  readonly unitWeight: Weight;
  /** Days a whole unit keeps chilled or in store, as bought; null where it outlasts any plan. */
  readonly keepsDays: number | null;
  readonly allergens: readonly string[];
  readonly treatment: string | null;
  readonly breakdowns: readonly TableBreakdown[];
}

export interface TableBreakdown {
  readonly name: string;
  readonly parts: readonly TablePart[];
  /** Cutting loss. Fractions and loss add up to one. */
  readonly loss: Decimal;
  readonly minutes: Decimal | null;
  readonly how: string | null;
}

export interface TablePart extends Provenance {
  /** Full name: item, space, part. */
  readonly part: string;
  readonly fraction: Decimal;
  readonly class: PartClass;
  readonly keepsDays: number | null;
  /** Whole pieces of the part from one unit of the item; null where it is not counted. */
  readonly pieces: number | null;
  /** Standard deviation of the fraction, and the number of tests behind it, where known. */
  readonly spread: Decimal | null;
  readonly tests: number | null;
}

/** A further breakdown of a part: peel, pick, wilt, freeze, a pot of stock. */
export interface TableStep extends Provenance {
  readonly name: string;
  readonly from: readonly string[];
  readonly yields: readonly { part: string; fraction: Decimal; class: PartClass; keepsDays: number | null }[];
  readonly loss: Decimal;
  readonly water: Decimal;
  readonly how: string | null;
}

/** Cooked weight over raw weight. */
export interface CookingYield extends Provenance {
  readonly food: string;
  readonly method: string;
  readonly fraction: Decimal;
  readonly spread: Decimal | null;
  readonly tests: number | null;
}
