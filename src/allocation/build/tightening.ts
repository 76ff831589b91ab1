import { type Item, type Lot, lotKey, type Scenario } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { bearingYieldOf } from "../costs.js";
import { type BuildContext, lotName } from "./context.js";
import { type CostsAbove, chargesOf, costsAbove } from "./costs-above.js";
import { type UnitCost, unitCostsOf } from "./unit-costs.js";

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

export function tighteningKey({ lot, dish, service }: Pick<Tightening, "lot" | "dish" | "service">): string {
  return `${lotKey(lot)} | ${dish} | ${service}`;
}

/**
 * Holds the average cost of lots to their tightenings. What a part costs depends on how its item is cut, and a lot
 * from two ways of cutting costs their average; the ceiling row alone, which charges the cheapest way, does not
 * see that.
 */
export function addTightenings(tightenings: readonly Tightening[], context: BuildContext): void {
  const known = new Map<Item, UnitCost[]>();
  const costsOf = (item: Item): UnitCost[] => {
    const costs = known.get(item) ?? unitCostsOf(item, context);
    known.set(item, costs);
    return costs;
  };
  for (const { lot, perKilogram, held } of tightenings)
    if (held) limitAverage({ lot, most: perKilogram, costsOf }, context);
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

function limitAverage(limit: Limit, context: BuildContext): void {
  const { scenario, builder } = context;
  const { lot, most } = limit;
  const { part, origin } = lot;
  if (origin.kind !== "cut") return;
  const parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  const sum = new Sum();
  for (const costs of costsAbove({ part, origin }, most, context))
    addAbove(costs, { ...limit, sum }, context);
  const name = `${lotName(scenario, lot)} within ${most.toFixed(4)} a kilogram`;
  builder.row({ family: "average cost", part }, name, sum, { upper: 0 });
  for (const step of scenario.steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
    const bearing = bearingYieldOf(step, part, parts);
    // What bears nothing of the cost of its source costs nothing, whatever that cost.
    if (bearing === 0) continue;
    for (const from of step.from)
      limitAverage({ ...limit, lot: { part: from, origin }, most: most * bearing }, context);
  }
}

/** What a kilogram of a lot may cost on average, with what a unit of each item can cost. */
interface Limit {
  readonly lot: Lot;
  readonly most: number;
  readonly costsOf: (item: Item) => UnitCost[];
}

/** Adds to the sum what a lot's cuts of an item can at most cost above so much a kilogram. */
function addAbove(
  { item, givings, above }: CostsAbove,
  { lot, most, costsOf, sum }: Limit & { readonly sum: Sum },
  context: BuildContext,
): void {
  const { scenario, builder } = context;
  const costs = costsOf(item);
  const charges = chargesOf(item, givings, lot.part, context);
  const [only] = costs;
  if (costs.length < 2) {
    sum.addSum(above(only?.perUnit ?? 0)).addSum(charges);
    return;
  }
  const reach = (terms: Sum): number =>
    terms.terms().reduce((all, term) => all + Math.abs(term.coefficient) * builder.upperOf(term.variable), 0);
  const farthest = reach(charges) + Math.max(...costs.map(({ perUnit }) => reach(above(perUnit))));
  const tag = { family: "average cost", item: item.name, part: lot.part };
  const name = `${lotName(scenario, lot)} of ${item.name} above ${most.toFixed(4)} a kilogram`;
  const excess = builder.variable(tag, name, farthest, { lower: -farthest });
  sum.add(excess, 1);
  for (const { perUnit, isPaid } of costs) {
    const over = new Sum().add(excess, 1).addSum(above(perUnit), -1).addSum(charges, -1);
    if (isPaid !== null) over.add(isPaid, -2 * farthest);
    builder.row(tag, `${name} at ${perUnit.toFixed(4)}`, over, {
      lower: isPaid === null ? 0 : -2 * farthest,
    });
  }
}
