import {
  type Breakdown,
  type Item,
  type Lot,
  lotKey,
  type Scenario,
  type Step,
} from "../../kitchen/index.js";
import type { CookingSite, Demand } from "../demand.js";
import { kg, rate } from "../floats.js";
import type { LotGraph, LotNode } from "../lot-graph.js";
import type { ModelBuilder, Sum } from "../model.js";

/** What every part of the builder works on. */
export interface BuildContext {
  readonly scenario: Scenario;
  readonly lotGraph: LotGraph;
  readonly sites: readonly CookingSite[];
  readonly demand: Demand;
  /** What a kilogram of a lot costs in a ceiling row: the least it can, or what an earlier plan showed. */
  readonly costOf: (lot: LotNode, site: CookingSite) => number;
  /** What a portion is to stay below its ceiling. */
  readonly marginOf: (site: CookingSite) => number;
  /** Parts whose average cost is held, with all that they are made of. */
  readonly heldToCost: ReadonlySet<string>;
  readonly builder: ModelBuilder;
  readonly handles: Handles;
}

/** A delivery that is charged: whether it is made, and its charge in currency units. */
export interface ChargeHandle {
  readonly supplier: string;
  readonly service: number;
  readonly variable: number;
  readonly charge: number;
}

/** The row of a ceiling: what a cooking's lots cost at the least, less what there is room for, is no more than 0. */
export interface CeilingHandle {
  readonly site: CookingSite;
  readonly goes: readonly GoHandle[];
  readonly sum: Sum;
}

/** Which variable stands for which decision. */
export class Handles {
  readonly buys: BuyHandle[] = [];
  readonly charges: ChargeHandle[] = [];
  readonly ceilings: CeilingHandle[] = [];
  readonly cuts: CutHandle[] = [];
  readonly bins: { item: Item; service: number; variable: number }[] = [];
  /** Whole items kept for a named use. */
  readonly keptItems: { item: Item; variable: number }[] = [];
  /** Whole items that outlast the plan and stay in stock. */
  readonly stockItems: { item: Item; variable: number }[] = [];
  readonly stocks: { item: Item; service: number; variable: number }[] = [];
  readonly draws: DrawHandle[] = [];
  readonly goes: GoHandle[] = [];
  readonly cooks: { site: CookingSite; variable: number }[] = [];
  readonly serves: { site: CookingSite; at: number; variable: number }[] = [];
  /** Spare portions by destination; null stands for the waste destination. */
  readonly spares: { site: CookingSite; destination: string | null; variable: number }[] = [];
  readonly gives: { lot: LotNode; destination: string; variable: number }[] = [];
  readonly wastes: { lot: LotNode; variable: number }[] = [];
  /** Parts kept for a named use. */
  readonly keeps: { lot: LotNode; variable: number }[] = [];
  /** Parts on hand that outlast the plan and stay in stock. */
  readonly stays: { lot: LotNode; variable: number }[] = [];
  /** What is thrown away of each inedible lot: the sum, and of what is on hand the kilograms beside it. */
  readonly thrown: { lot: LotNode; sum: Sum; held: number }[] = [];
  /** Of cookings whose portions have no one weight, where it matters. */
  readonly portionWeights = new Map<CookingSite, PortionWeight>();
}

export interface BuyHandle {
  readonly item: Item;
  readonly service: number;
  readonly variable: number;
  /** The same order units by what each costs, in currency units; of a lower price, whether it is reached. */
  readonly byPrice: readonly {
    readonly variable: number;
    readonly price: number;
    readonly isReached: number | null;
  }[];
}

export interface CutHandle {
  readonly item: Item;
  readonly breakdown: Breakdown;
  readonly service: number;
  readonly variable: number;
}

/** Kilograms of a part in a unit of what is cut; null where the cut does not give it. */
export function weightInUnit({ item, breakdown }: CutHandle, part: string): number | null {
  const given = breakdown.yields.find((made) => made.part === part);
  return given === undefined ? null : rate(given.fraction) * kg(item.unitWeight);
}

export interface DrawHandle {
  readonly step: Step;
  readonly from: LotNode;
  /** The service it is worked before, where that matters; null where any will do. */
  readonly service: number | null;
  readonly variable: number;
}

export interface GoHandle {
  readonly lot: LotNode;
  readonly site: CookingSite;
  readonly line: number;
  readonly variable: number;
  /** Kilograms one unit of the variable stands for: one, or a piece's weight. */
  readonly unit: number;
}

export interface WeightRange {
  readonly least: number;
  readonly most: number;
}

/** What a portion of one cooking weighs, where that depends on what goes in. */
export interface PortionWeight {
  readonly variable: number;
  readonly range: WeightRange;
  /** Kilograms of as many portions as a variable says, by variable. */
  readonly of: Map<number, Sum>;
}

/** What a kilogram of a lot is counted at in a cooking that an earlier plan put over its ceiling. */
export interface Tightening {
  readonly lot: Lot;
  readonly dish: string;
  readonly service: number;
  readonly perKilogram: number;
  /** Whether the lot's average cost is held to that too. */
  readonly held: boolean;
}

/** What a portion of a cooking is to stay below its ceiling, in currency units, so that rounding leaves it within. */
export interface Margin {
  readonly dish: string;
  readonly service: number;
  readonly perPortion: number;
}

/** What earlier plans showed of ceilings. */
export interface Ceilings {
  readonly tightenings: readonly Tightening[];
  readonly margins: readonly Margin[];
  /** Cookings whose ceilings are kept with what their lots really cost, by whichever way that can be said. */
  readonly open: readonly { readonly dish: string; readonly service: number }[];
}

/** Before anything was shown. */
export const NOTHING_SHOWN: Ceilings = { tightenings: [], margins: [], open: [] };

export function tighteningKey({ lot, dish, service }: Pick<Tightening, "lot" | "dish" | "service">): string {
  return `${lotKey(lot)} | ${dish} | ${service}`;
}

/**
 * Parts whose average cost is held, with all that they are made of: cutting more of an item than anybody can use may
 * be what brings it down.
 */
export function partsHeld({ tightenings, open }: Ceilings, { dishes, steps }: Scenario): ReadonlySet<string> {
  const taken = dishes
    .filter(({ name }) => open.some(({ dish }) => dish === name))
    .flatMap(({ lines }) => lines.flatMap(({ from }) => from.map(({ part }) => part)));
  const held = new Set([...tightenings.filter((entry) => entry.held).map(({ lot }) => lot.part), ...taken]);
  // A set gives what is added to it while it is walked through.
  for (const part of held) {
    for (const { from } of steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
      for (const source of from) held.add(source);
    }
  }
  return held;
}
