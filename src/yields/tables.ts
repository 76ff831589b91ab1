import type { Handling, OwnTests, Part, PartClass } from "../kitchen/index.js";
import type { Decimal, Weight } from "../quantity/index.js";
import type { Basis, Provenance } from "../table-files/index.js";

/** The published and common-practice yields that every kitchen starts from, as read from yield-tables/. */
export interface YieldTables {
  readonly items: readonly TableItem[];
  readonly steps: readonly TableStep[];
  readonly cooking: readonly CookingYield[];
  readonly densities: readonly Density[];
}

/** One item in one form; the same item in two forms is two entries. The provenance is the unit weight's. */
export interface TableItem extends Provenance {
  readonly name: string;
  /** Other names it is bought under: "zucchini" of a courgette. */
  readonly alsoCalled: readonly string[];
  readonly form: string;
  readonly handling: Handling;
  readonly measure: "whole" | "loose";
  readonly unitName: string;
  /** One kilogram for a loose item. */
  readonly unitWeight: Weight;
  /** Standard deviation from unit to unit, where known. */
  readonly unitSpread: Weight | null;
  /** Days a whole unit keeps chilled or in store, as bought; null where it outlasts any plan. */
  readonly keepsDays: number | null;
  readonly keepsFrom: Provenance | null;
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
  /** The kitchen's own tests in the figures; left out where there are none. */
  readonly ownTests?: OwnTests;
}

export interface TablePart extends Provenance {
  /** Full name: item, space, part. */
  readonly part: string;
  readonly fraction: Decimal;
  readonly class: PartClass;
  /** Days the part keeps chilled, the day it is cut being day 1; null where it outlasts any plan. */
  readonly keepsDays: number | null;
  readonly keepsBasis: Basis | null;
  /** Whole pieces of the part from one unit of the item; null where it is not counted. */
  readonly pieces: number | null;
  /** Standard deviation of the fraction: of own tests from unit to unit, else from kitchen to kitchen, where known. */
  readonly spread: Decimal | null;
  /** The number of tests behind the figure, where known. */
  readonly tests: number | null;
  /** How far the figure may be off; of own tests only. */
  readonly standardError?: Decimal;
}

/** A further breakdown of a part: peel, pick, wilt, freeze, a pot of stock. */
export interface TableStep extends Provenance {
  readonly name: string;
  readonly from: readonly string[];
  /** Per weight taken. With the loss they add up to one plus the water. */
  readonly yields: readonly TableStepYield[];
  readonly loss: Decimal;
  readonly water: Decimal;
  readonly minutesPerKilogram: Decimal | null;
  readonly how: string | null;
}

export interface TableStepYield {
  readonly part: string;
  readonly fraction: Decimal;
  readonly class: PartClass;
  readonly state: Part["state"];
  readonly keepsDays: number | null;
}

/** Cooked weight over raw weight. */
export interface CookingYield extends Provenance {
  readonly food: string;
  readonly method: string;
  readonly fraction: Decimal;
  readonly spread: Decimal | null;
  readonly tests: number | null;
}

/** What a volume of a food weighs, spooned or poured, not pressed down. */
export interface Density extends Provenance {
  readonly food: string;
  readonly alsoCalled: readonly string[];
  readonly gramsPerMillilitre: Decimal;
}

/** "broccoli (crown)", and with a breakdown "broccoli (crown), florets". */
export function nameOf(item: string, form: string, breakdown?: string): string {
  return breakdown === undefined ? `${item} (${form})` : `${item} (${form}), ${breakdown}`;
}
