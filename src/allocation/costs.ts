import {
  BEARING,
  type Breakdown,
  byEdibleWeight,
  COSTING_METHODS,
  creditOf,
  type Item,
  isMainPart,
  type Lot,
  lowestPrice,
  type Part,
  type PartClass,
  type Scenario,
  type Step,
  supplierOf,
  tiersOf,
} from "../kitchen/index.js";
import type { Money } from "../quantity/index.js";
import { currency, kg, rate } from "./floats.js";
import { partsInCuttingOrder } from "./lot-graph.js";

/**
 * The least a kilogram of each part can cost under the scenario's costing method, whatever is bought and cut:
 * what ceiling rows are built on, so that "no plan" is never claimed falsely.
 */
function leastCosts(scenario: Scenario): ReadonlyMap<string, number> {
  const parts = partsByName(scenario);
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
      const bear = new Set(borne.map(({ part }) => part.name));
      for (const { part } of breakdown.yields) if (!bear.has(part)) offer(part, 0);
      return borne;
    });
    for (const { part, cost } of costs) offer(part.name, cost);
    // Credits are settled over all cuts of an item: what one cut's main part bears can be borne by another's.
    if (!COSTING_METHODS[scenario.costing].credits) continue;
    const main = costs.filter(({ part }) => part.marketValue === null);
    const overcredited = item.breakdowns.some(
      (breakdown) => trimCreditOf(breakdown, parts) > costPerKilogram,
    );
    const floor = overcredited ? 0 : Math.min(...main.map(({ cost }) => cost));
    for (const { part } of main) offer(part.name, floor);
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

export function partsByName({ parts }: Scenario): ReadonlyMap<string, Part> {
  return new Map(parts.map((part) => [part.name, part]));
}

function foodYieldOf(step: Step, parts: ReadonlyMap<string, Part>): number {
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
  const parts = partsByName(scenario);
  const costs = partCosts(breakdown, perUnit / kg(item.unitWeight), scenario, parts);
  return costs.find((borne) => borne.part.name === part)?.cost ?? 0;
}

/** Credits of everything that a kilogram cut gives, were all of it used. */
export function trimCreditOf(breakdown: Breakdown, parts: ReadonlyMap<string, Part>): number {
  return givenBy(breakdown, parts).reduce(
    (sum, { part, fraction }) => sum + fraction * currency(creditOf(part)),
    0,
  );
}

interface Given {
  readonly part: Part;
  readonly fraction: number;
}

function givenBy({ yields }: Breakdown, parts: ReadonlyMap<string, Part>): Given[] {
  return yields.flatMap(({ part: name, fraction }) => {
    const part = parts.get(name);
    return part === undefined || fraction.isZero() ? [] : [{ part, fraction: rate(fraction) }];
  });
}

/** Cost per kilogram of each part of a breakdown that bears any, at a cost per kilogram of the item as purchased. */
function partCosts(
  breakdown: Breakdown,
  costPerKilogram: number,
  scenario: Scenario,
  parts: ReadonlyMap<string, Part>,
): Borne[] {
  const method = COSTING_METHODS[scenario.costing];
  const given = givenBy(breakdown, parts);
  const main = given.filter(({ part }) => isMainPart(part));
  if (!method.credits || main.length === 0)
    return shared(given, costPerKilogram, method.counts(given.map(({ part }) => part)));
  const credited = shared(given, costPerKilogram, creditOf);
  return [
    ...credited.map(({ part, cost }) => ({ part, cost: Math.min(cost, currency(creditOf(part))) })),
    ...shared(
      main,
      costPerKilogram - trimCreditOf(breakdown, parts),
      byEdibleWeight(main.map(({ part }) => part)),
    ),
  ];
}

/** What a kilogram of a part bears. */
interface Borne {
  readonly part: Part;
  readonly cost: number;
}

function shared(given: readonly Given[], cost: number, count: (part: Part) => Money): Borne[] {
  const counted = given
    .map(({ part, fraction }) => ({ part, fraction, count: currency(count(part)) }))
    .filter((each) => each.count > 0);
  const all = counted.reduce((sum, { fraction, count: each }) => sum + fraction * each, 0);
  return counted.map(({ part, count: each }) => ({ part, cost: (cost * each) / all }));
}

/** A share is split to whole ten-thousandths, so it may be so much less than its part of the charge. */
const SPLIT = 0.0001;

/**
 * The least that an order unit bears of what its delivery is charged, in currency units: its part, by cost, of the
 * dearest order that can be made. That is known only where everything from the supplier has a most; else nothing.
 */
export function leastDeliveryShare(item: Item, scenario: Scenario): number {
  const supplier = supplierOf(item, scenario);
  if (supplier === null || supplier.delivery === 0n || item.buying === null) return 0;
  const dearest = scenario.items.reduce((sum, { supplier: name, buying }) => {
    if (name !== supplier.name || buying === null) return sum;
    return sum + dearestOrder(buying);
  }, 0);
  const charge = Math.max(0, currency(supplier.delivery) - SPLIT);
  return dearest > 0 ? (charge * currency(lowestPrice(item.buying))) / dearest : 0;
}

/** The most that one order of an item can cost; Infinity where it has no most. */
function dearestOrder(buying: NonNullable<Item["buying"]>): number {
  const costs = tiersOf(buying).map(
    ({ most, price }) => currency(price) * (most ?? Number.POSITIVE_INFINITY),
  );
  return Math.max(0, ...costs.filter((cost) => !Number.isNaN(cost)));
}
