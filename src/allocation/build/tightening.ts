import { type Lot, lotKey, type Scenario } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { dearestCost, foodYieldOf } from "../costs.js";
import { kg, rate } from "../floats.js";
import { type BuildContext, lotName } from "./context.js";

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

export function tighteningKey(lot: Lot, dish: string, service: number): string {
  return `${lotKey(lot)} | ${dish} | ${service}`;
}

/**
 * Holds the average cost of lots to their tightenings. What a part costs depends on how its item is cut, and a lot
 * from two ways of cutting costs their average; the ceiling row alone, which charges the cheapest way, does not
 * see that.
 */
export function addTightenings(tightenings: readonly Tightening[], context: BuildContext): void {
  for (const { lot, perKilogram, held } of tightenings) if (held) limitAverage(lot, perKilogram, context);
}

/**
 * Parts whose average cost is held, with all that they are made of: cutting more of an item than anybody can use may
 * be what brings it down.
 */
export function partsHeld(tightenings: readonly Tightening[], { steps }: Scenario): ReadonlySet<string> {
  const held = new Set(tightenings.filter((entry) => entry.held).map(({ lot }) => lot.part));
  // A set gives what is added to it while it is walked through.
  for (const part of held) {
    for (const { from } of steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
      for (const source of from) held.add(source);
    }
  }
  return held;
}

function limitAverage(lot: Lot, most: number, context: BuildContext): void {
  const { scenario, handles, builder } = context;
  const { part, origin } = lot;
  if (origin.kind !== "cut") return;
  const sum = new Sum();
  for (const { item, breakdown: name, service, variable } of handles.cuts) {
    const breakdown = item.breakdowns.find((entry) => entry.name === name);
    const made = breakdown?.yields.find((entry) => entry.part === part);
    if (service !== origin.service || breakdown === undefined || made === undefined) continue;
    const weight = rate(made.fraction) * kg(item.unitWeight);
    sum.add(variable, weight * (dearestCost(item, breakdown, part, scenario) - most));
  }
  const name = `${lotName(scenario, lot)} within ${most.toFixed(4)} a kilogram`;
  builder.row({ family: "average cost", part }, name, sum, { upper: 0 });
  const parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  for (const step of scenario.steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
    for (const from of step.from) {
      limitAverage({ part: from, origin }, most * foodYieldOf(step, parts), context);
    }
  }
}
