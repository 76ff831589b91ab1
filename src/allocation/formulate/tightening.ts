import { type Lot, lotKey, type Scenario } from "../../kitchen/index.js";
import type { LotCosts } from "./lot-costs.js";

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
 * Holds the average cost of lots to their tightenings: the ceiling row alone, which charges the cheapest way of
 * cutting, does not see what the others cost.
 */
export function addTightenings(tightenings: readonly Tightening[], costs: LotCosts): void {
  for (const { lot, perKilogram, held } of tightenings) if (held) costs.hold(lot, perKilogram);
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
