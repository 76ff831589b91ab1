import { Sum } from "../builder.js";
import { dearestCost, foodYieldOf } from "../costs.js";
import { kg, rate } from "../floats.js";
import { type BuildContext, lotName } from "./context.js";

/** A part may cost a cooking no more than so much a kilogram, as an earlier plan was over the dish's ceiling. */
export interface Tightening {
  readonly part: string;
  readonly dish: string;
  readonly service: number;
  readonly perKilogram: number;
}

/**
 * Holds the average cost of the lots that may go into a cooking to its tightenings. What a part costs depends on
 * how its item is cut, and a lot from two ways of cutting costs their average; the ceiling row alone, which
 * charges the cheapest way, does not see that.
 */
export function addTightenings(tightenings: readonly Tightening[], context: BuildContext): void {
  for (const { part, perKilogram } of tightenings) limitAverage(part, perKilogram, context);
}

function limitAverage(part: string, most: number, context: BuildContext): void {
  const { scenario, network, handles, builder } = context;
  for (const lot of network.lots) {
    if (lot.part !== part || lot.origin.kind !== "cut") continue;
    const sum = new Sum();
    for (const { item, breakdown: name, service, variable } of handles.cuts) {
      const breakdown = item.breakdowns.find((entry) => entry.name === name);
      const made = breakdown?.yields.find((entry) => entry.part === part);
      if (service !== lot.origin.service || breakdown === undefined || made === undefined) continue;
      const weight = rate(made.fraction) * kg(item.unitWeight);
      sum.add(variable, weight * (dearestCost(item, breakdown, part, scenario) - most));
    }
    const name = `${lotName(scenario, lot)} within ${most.toFixed(4)} a kilogram`;
    builder.row({ family: "average cost", part }, name, sum, { upper: 0 });
  }
  const parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  for (const step of scenario.steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
    for (const from of step.from) limitAverage(from, most * foodYieldOf(step, parts), context);
  }
}
