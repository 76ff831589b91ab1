import {
  type Breakdown,
  type Item,
  type Lot,
  lowestPrice,
  type Part,
  type PartClass,
  type Scenario,
  type Step,
} from "../kitchen/index.js";
import { NO_MONEY } from "../quantity/index.js";
import { leastDeliveryShare } from "./delivery-shares.js";
import { currency, kg, rate } from "./floats.js";
import { partsInCuttingOrder } from "./network.js";

/** The cost of a cut or a step is borne by the first of these that it gives any of. */
const BEARING: readonly PartClass[] = ["food", "inedible", "never"];

/**
 * The least a kilogram of each part can cost under the scenario's costing method, whatever is bought and cut:
 * what ceiling rows are built on, so that "no plan" is never claimed falsely.
 */
function leastCosts(scenario: Scenario): ReadonlyMap<string, number> {
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const least = new Map<string, number>();
  const offer = (part: string, cost: number): void => {
    least.set(part, Math.min(least.get(part) ?? Number.POSITIVE_INFINITY, Math.max(0, cost)));
  };
  for (const item of scenario.items) {
    const ofUnits = leastUnitCosts(item, scenario);
    // An item neither bought nor on hand gives nothing, so nothing of it comes cheap.
    if (ofUnits.length === 0) continue;
    const costPerKilogram = Math.min(...ofUnits) / kg(item.unitWeight);
    const costs = item.breakdowns.flatMap((breakdown) => {
      const borne = partCosts(breakdown, costPerKilogram, scenario, parts);
      const bear = new Set(borne.map(([part]) => part));
      for (const { part } of breakdown.yields) if (!bear.has(part)) offer(part, 0);
      return borne;
    });
    for (const [part, cost] of costs) offer(part, cost);
    // Trim credit is settled over all cuts of an item: what one cut's main part bears can be borne by another's.
    if (scenario.costing !== "trim credit") continue;
    const main = costs.filter(([part]) => (parts.get(part)?.marketValue ?? null) === null);
    const overcredited = item.breakdowns.some(
      (breakdown) => trimCreditOf(breakdown, parts) > costPerKilogram,
    );
    const floor = overcredited ? 0 : Math.min(...main.map(([, cost]) => cost));
    for (const [part] of main) offer(part, floor);
  }
  for (const { part, value, weight } of scenario.partsOnHand) offer(part, currency(value) / kg(weight));
  for (const name of partsInCuttingOrder(scenario)) {
    const cost = least.get(name);
    if (cost === undefined) continue;
    for (const step of scenario.steps.filter(({ from }) => from.includes(name))) {
      const foodYield = foodYieldOf(step, parts);
      for (const { part } of step.yields) {
        // Where a step gives food, the food bears the cost; else whatever it gives does.
        const bears = foodYield > 0 && parts.get(part)?.class === "food";
        offer(part, bears ? cost / foodYield : 0);
      }
    }
  }
  return least;
}

/**
 * The least a kilogram of a lot can cost: of one cut, whatever is bought and cut; of one on hand, what it is
 * valued at.
 */
export function leastLotCosts(scenario: Scenario): (lot: Lot) => number {
  const cut = leastCosts({ ...scenario, partsOnHand: [] });
  const held = scenario.partsOnHand.map((stock) =>
    leastCosts({ ...scenario, items: [], partsOnHand: [stock] }),
  );
  return ({ part, origin }) => (origin.kind === "cut" ? cut : held[origin.index])?.get(part) ?? 0;
}

export function foodYieldOf(step: Step, parts: ReadonlyMap<string, Part>): number {
  return yieldOf(step, "food", parts);
}

function yieldOf({ yields }: Step, bears: PartClass, parts: ReadonlyMap<string, Part>): number {
  return yields.reduce(
    (sum, { part, fraction }) => (parts.get(part)?.class === bears ? sum + rate(fraction) : sum),
    0,
  );
}

/** Of a weight that a step takes, how much bears its cost together with a part that it gives; 0 where the part does not. */
export function bearingYieldOf(step: Step, part: string, parts: ReadonlyMap<string, Part>): number {
  const bears = BEARING.find((kind) => yieldOf(step, kind, parts) > 0);
  return bears !== undefined && parts.get(part)?.class === bears ? yieldOf(step, bears, parts) : 0;
}

/** The least that a unit can cost by each way it can be had: bought, with its share of a delivery, and from stock. */
function leastUnitCosts(item: Item, scenario: Scenario): number[] {
  const { buying, orderUnit } = item;
  const bought =
    buying === null
      ? []
      : [(currency(lowestPrice(buying)) + leastDeliveryShare(item, scenario)) / rate(orderUnit.size)];
  return [...bought, ...heldUnitCosts(item)];
}

/** What a unit of each lot of stock is valued at. */
export function heldUnitCosts({ onHand }: Item): number[] {
  const held = onHand.filter(({ units }) => !units.isZero());
  return held.map(({ value, units }) => currency(value) / rate(units));
}

/** What a kilogram of a part costs when an item is cut one way, at what a unit costs. */
export function costWhenCut(
  item: Item,
  breakdown: Breakdown,
  part: string,
  { perUnit, scenario }: { readonly perUnit: number; readonly scenario: Scenario },
): number {
  const parts = new Map(scenario.parts.map((entry) => [entry.name, entry]));
  const costs = partCosts(breakdown, perUnit / kg(item.unitWeight), scenario, parts);
  return costs.find(([name]) => name === part)?.[1] ?? 0;
}

/** Credits of everything that a kilogram cut gives, were all of it used. */
export function trimCreditOf(breakdown: Breakdown, parts: ReadonlyMap<string, Part>): number {
  return breakdown.yields.reduce(
    (sum, { part, fraction }) => sum + rate(fraction) * currency(parts.get(part)?.marketValue ?? NO_MONEY),
    0,
  );
}

/**
 * Cost per kilogram of each part of a breakdown, at a cost per kilogram of the item as purchased. Trim credit
 * without a part to bear the rest is as sales value, and where nothing has a value, what there is bears by weight.
 */
function partCosts(
  breakdown: Breakdown,
  costPerKilogram: number,
  scenario: Scenario,
  parts: ReadonlyMap<string, Part>,
): [string, number][] {
  const yields = breakdown.yields
    .map(({ part, fraction }) => ({
      part,
      fraction: rate(fraction),
      class: parts.get(part)?.class,
      value: currency(parts.get(part)?.marketValue ?? NO_MONEY),
    }))
    .filter(({ fraction }) => fraction > 0);
  const valued = yields.filter(({ value }) => value > 0);
  const sales = valued.reduce((sum, { fraction, value }) => sum + fraction * value, 0);
  const main = yields.filter((entry) => entry.class === "food" && entry.value === 0);
  const isByValue =
    scenario.costing === "sales value" || (scenario.costing === "trim credit" && main.length === 0);
  if (isByValue && sales > 0)
    return valued.map(({ part, value }) => [part, (costPerKilogram * value) / sales]);
  if (scenario.costing === "trim credit" && main.length > 0) {
    return [
      ...valued.map(({ part, value }): [string, number] => [
        part,
        Math.min(value, (costPerKilogram * value) / sales),
      ]),
      ...byWeight(main, costPerKilogram - sales),
    ];
  }
  const bearing = BEARING.map((bears) => yields.filter((entry) => entry.class === bears)).find(
    (some) => some.length > 0,
  );
  return byWeight(bearing ?? [], costPerKilogram);
}

function byWeight(
  bearing: readonly { readonly part: string; readonly fraction: number }[],
  cost: number,
): [string, number][] {
  const weight = bearing.reduce((sum, { fraction }) => sum + fraction, 0);
  return bearing.map(({ part }) => [part, cost / weight]);
}
