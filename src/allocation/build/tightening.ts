import { type Breakdown, type Item, type Lot, lotKey, type Scenario } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { costWhenCut, foodYieldOf } from "../costs.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { type BuildContext, lotName } from "./context.js";
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

export function tighteningKey(lot: Lot, dish: string, service: number): string {
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
  const { scenario, handles, builder } = context;
  const { lot, most } = limit;
  const { part, origin } = lot;
  if (origin.kind !== "cut") return;
  const sum = new Sum();
  const made = groupBy(
    handles.cuts.flatMap(({ item, breakdown: name, service, variable }): Giving[] => {
      const breakdown = item.breakdowns.find((entry) => entry.name === name);
      const given = breakdown?.yields.find((entry) => entry.part === part);
      if (service !== origin.service || breakdown === undefined || given === undefined) return [];
      return [{ item, breakdown, variable, weight: rate(given.fraction) * kg(item.unitWeight) }];
    }),
    ({ item }) => item,
  );
  for (const [item, givings] of made.entries()) addAbove(item, givings, { ...limit, sum }, context);
  const name = `${lotName(scenario, lot)} within ${most.toFixed(4)} a kilogram`;
  builder.row({ family: "average cost", part }, name, sum, { upper: 0 });
  const parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  for (const step of scenario.steps.filter(({ yields }) => yields.some((made) => made.part === part))) {
    for (const from of step.from) {
      const source = { part: from, origin };
      limitAverage({ ...limit, lot: source, most: most * foodYieldOf(step, parts) }, context);
    }
  }
}

/** What a kilogram of a lot may cost on average, with what a unit of each item can cost. */
interface Limit {
  readonly lot: Lot;
  readonly most: number;
  readonly costsOf: (item: Item) => UnitCost[];
}

/** A cut that gives the part, with the kilograms of it in a unit. */
interface Giving {
  readonly item: Item;
  readonly breakdown: Breakdown;
  readonly variable: number;
  readonly weight: number;
}

/** Adds to the sum what a lot's cuts of an item can at most cost above so much a kilogram. */
function addAbove(
  item: Item,
  givings: readonly Giving[],
  { lot, most, costsOf, sum }: Limit & { readonly sum: Sum },
  context: BuildContext,
): void {
  const { scenario, builder } = context;
  const above = (perUnit: number): Sum => {
    const cost = ({ breakdown }: Giving): number =>
      costWhenCut(item, breakdown, lot.part, { perUnit, scenario });
    return givings.reduce(
      (all, giving) => all.add(giving.variable, giving.weight * (cost(giving) - most)),
      new Sum(),
    );
  };
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

/**
 * At most what the cuts of a lot bear of what deliveries of their item are charged: no more than the part bears of any
 * cut, of the charge less what the other goods of the delivery bear of it in the dearest order there can be.
 */
function chargesOf(
  item: Item,
  givings: readonly Giving[],
  part: string,
  { scenario, handles, builder }: BuildContext,
): Sum {
  const borne = givings.map(({ breakdown, weight }) =>
    scenario.costing === "trim credit"
      ? 1
      : weight * costWhenCut(item, breakdown, part, { perUnit: 1, scenario }),
  );
  const most = Math.max(0, ...borne);
  const sum = new Sum();
  for (const { supplier, service, variable, charge } of handles.charges) {
    if (supplier !== item.supplier) continue;
    const order = handles.buys.filter((buy) => buy.item.supplier === supplier && buy.service === service);
    const dearest = order.reduce((goods, { byPrice }) => {
      const costs = byPrice.map((bought) => bought.price * builder.upperOf(bought.variable));
      return goods + Math.max(0, ...costs);
    }, 0);
    sum.add(variable, charge * most);
    for (const { byPrice } of order.filter((buy) => buy.item !== item && dearest > 0))
      for (const bought of byPrice) sum.add(bought.variable, (-charge * most * bought.price) / dearest);
  }
  return sum;
}
