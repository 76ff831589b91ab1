import type { Money, Weight } from "../quantity/index.js";

/**
 * What the planner decided, in whole portions and milligrams. It closes: what a cut, a step or a lot takes in
 * is exactly what leaves it. Services are indexes into the scenario's.
 */
export interface Decision {
  readonly purchases: readonly Purchase[];
  readonly cuts: readonly Cut[];
  readonly binned: readonly ItemEnd[];
  readonly keptItems: readonly ItemEnd[];
  /** What items lost in store, uncut; never planned, only weighed. */
  readonly storageLosses?: readonly StorageLoss[];
  readonly preps: readonly Prep[];
  readonly goings: readonly PartUse[];
  readonly cookings: readonly Cooking[];
  readonly sends: readonly Send[];
  readonly kept: readonly KeptPart[];
}

/** A part as one lot: cut before one service, or one entry of the stock on hand. All of a lot has one date. */
export interface Lot {
  readonly part: string;
  readonly origin: LotOrigin;
}

export type LotOrigin =
  | { readonly kind: "cut"; readonly service: number }
  | { readonly kind: "onHand"; readonly index: number };

export interface Purchase {
  readonly item: string;
  readonly service: number;
  readonly orderUnits: number;
  readonly weight: Weight;
  /** Of the goods alone. */
  readonly cost: Money;
  /** Its share of what its delivery is charged; left out where that is nothing. */
  readonly delivery?: Money;
}

export interface Cut {
  readonly item: string;
  readonly breakdown: string;
  readonly service: number;
  /** Whole units, or null for an item cut by weight. */
  readonly units: number | null;
  readonly weight: Weight;
  /** One entry a yield, in the breakdown's order; with the loss they add up to the weight. */
  readonly parts: readonly PartWeight[];
  readonly loss: Weight;
}

export interface PartWeight {
  readonly part: string;
  readonly weight: Weight;
}

/** Whole items binned or kept past the plan. */
export interface ItemEnd {
  readonly item: string;
  readonly service: number;
  readonly units: number | null;
  readonly weight: Weight;
}

export interface StorageLoss {
  readonly item: string;
  readonly weight: Weight;
}

export interface Prep {
  readonly step: string;
  readonly from: Lot;
  readonly service: number;
  /** Weight taken from the source lot. */
  readonly weight: Weight;
  /** Water taken up. Weight + water = parts + loss. */
  readonly water: Weight;
  /** One entry a yield, in the step's order; each joins the lot of that part with the same origin. */
  readonly parts: readonly PartWeight[];
  readonly loss: Weight;
}

export interface PartUse {
  readonly lot: Lot;
  readonly dish: string;
  /** The service the dish is cooked for. */
  readonly service: number;
  /** Index of the recipe line. */
  readonly line: number;
  /** Raw weight. */
  readonly weight: Weight;
  readonly pieces: number | null;
}

export interface Cooking {
  readonly dish: string;
  readonly service: number;
  readonly portions: number;
  /** Portions eaten, by the service that eats them. */
  readonly served: readonly { readonly service: number; readonly portions: number }[];
  readonly spare: readonly { readonly destination: string; readonly portions: number }[];
}

export interface Send {
  readonly lot: Lot;
  readonly destination: string;
  readonly weight: Weight;
}

export interface KeptPart {
  readonly lot: Lot;
  readonly weight: Weight;
  readonly lastDay: number | null;
}
