import {
  type Dish,
  type Item,
  type Lot,
  type LotOrigin,
  lotKey,
  originKey,
  type Part,
  type Scenario,
  type Step,
  sourcesFirst,
  stockAsFound,
} from "../kitchen/index.js";
import { ONE } from "../quantity/index.js";
import { lastDayLeftByLot, lastDayOfLot } from "../safety/index.js";

/**
 * The lots a plan may hold: every part, by the service it is cut for or the stock it comes from, with the
 * services at which it may still go into a dish. Lots are in cutting order: a step's source before what it gives.
 */
export interface LotGraph {
  readonly lots: readonly LotNode[];
  /** Services before which each item may be cut. */
  readonly cutServices: ReadonlyMap<string, readonly number[]>;
  lot(part: string, origin: LotOrigin): LotNode | undefined;
}

export interface LotNode extends Lot {
  readonly index: number;
  readonly kind: Part;
  /** First service it can be used at. */
  readonly firstService: number;
  /** Last day it may be used; null when it outlasts the plan. */
  readonly lastDay: number | null;
}

/** A lot with what it is and how long it keeps. */
export type DatedLot = Pick<LotNode, "part" | "origin" | "kind" | "lastDay">;

/** Whether the lot may go into a dish cooked for the service. */
export function usableAt(lot: LotNode, service: number, scenario: Scenario): boolean {
  const day = scenario.services[service]?.day ?? 0;
  return service >= lot.firstService && (lot.lastDay === null || day <= lot.lastDay);
}

/** Whether the lot is still good on the day after the last service. */
export function outlastsPlan(lot: DatedLot, scenario: Scenario): boolean {
  const lastDay = scenario.services.at(-1)?.day ?? 0;
  return lot.lastDay === null || lot.lastDay > lastDay;
}

/** Where what is not used of stock on hand is stated to go, as it was found; undefined where nothing is stated. */
export function statedDestination(lot: Lot, scenario: Scenario): string | undefined {
  return stockAsFound(lot, scenario)?.destination;
}

/** Whether what is not used of the lot stays in stock: on hand, as it was found, with days left after the plan. */
export function staysInStock(lot: DatedLot, scenario: Scenario): boolean {
  const stock = stockAsFound(lot, scenario);
  return (
    stock !== undefined &&
    stock.destination === undefined &&
    lot.kind.class !== "never" &&
    outlastsPlan(lot, scenario)
  );
}

/**
 * With every lot that can be worth while; or only with those that a best plan needs, where no lot is held to a cost of
 * its own.
 */
export function buildLotGraph(scenario: Scenario, lots: "all" | "needed" = "all"): LotGraph {
  const order = partsInCuttingOrder(scenario);
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const cutServices = new Map(
    scenario.items.map((item) => {
      const services = servicesToCutBefore(item, scenario);
      return [item.name, lots === "all" ? services : withoutRepeats(item, services, scenario)] as const;
    }),
  );
  const reached = reachedLots(scenario, cutServices);
  const nodes: LotNode[] = [];
  for (const name of order) {
    const kind = parts.get(name);
    if (kind === undefined) continue;
    for (const origin of reached.get(name)?.values() ?? []) {
      nodes.push({
        index: nodes.length,
        part: name,
        origin,
        kind,
        firstService: origin.kind === "cut" ? origin.service : 0,
        lastDay: lastDayOfLot({ part: name, origin }, scenario),
      });
    }
  }
  const byKey = new Map(nodes.map((lot) => [lotKey(lot), lot]));
  return { lots: nodes, cutServices, lot: (part, origin) => byKey.get(lotKey({ part, origin })) };
}

/** Parts so ordered that a step's sources come before its outputs. */
export function partsInCuttingOrder(scenario: Scenario): string[] {
  const sources = new Map<string, Set<string>>();
  for (const part of scenario.parts) sources.set(part.name, new Set());
  for (const step of scenario.steps) {
    for (const output of step.yields) for (const from of step.from) sources.get(output.part)?.add(from);
  }
  return sourcesFirst(
    sources.keys(),
    (name) => sources.get(name) ?? [],
    (name) => new RangeError(`steps run in a circle through ${name}`),
  );
}

/**
 * Services before which a step may be worked on a lot: each while the lot keeps, where a pot, hands, the cold room or
 * the freezer are short; else null, for whenever it is wanted.
 */
export function servicesToWorkBefore(step: Step, lot: LotNode, scenario: Scenario): (number | null)[] {
  if (!isWorkedByService(step, scenario)) return usableAt(lot, lot.firstService, scenario) ? [null] : [];
  return scenario.services.flatMap((_, service) => (usableAt(lot, service, scenario) ? [service] : []));
}

/** So is a step that works on from such a one. */
function isWorkedByService(step: Step, scenario: Scenario): boolean {
  if (storesAreLimited(scenario)) return true;
  if (step.capacity !== null || (step.minutesPerKilogram !== null && handsAreLimited(scenario))) return true;
  return scenario.steps.some(
    (earlier) =>
      earlier.yields.some(({ part }) => step.from.includes(part)) && isWorkedByService(earlier, scenario),
  );
}

function reachedLots(
  scenario: Scenario,
  cutServices: ReadonlyMap<string, readonly number[]>,
): Map<string, Map<string, LotOrigin>> {
  const reached = new Map<string, Map<string, LotOrigin>>();
  const add = (part: string, origin: LotOrigin): void => {
    const origins = reached.get(part) ?? new Map<string, LotOrigin>();
    if (origins.has(originKey(origin))) return;
    origins.set(originKey(origin), origin);
    reached.set(part, origins);
    for (const step of stepsFrom(part, scenario)) {
      for (const output of step.yields) add(output.part, origin);
    }
  };
  for (const item of scenario.items) {
    for (const service of cutServices.get(item.name) ?? []) {
      for (const breakdown of item.breakdowns) {
        for (const { part } of breakdown.yields) add(part, { kind: "cut", service });
      }
    }
  }
  scenario.partsOnHand.forEach(({ part }, index) => {
    add(part, { kind: "onHand", index });
  });
  return reached;
}

export function stepsFrom(part: string, scenario: Scenario): Step[] {
  return scenario.steps.filter((step) => step.from.includes(part));
}

/**
 * Services before which cutting the item can be worth while: every one where work or stores are short; else those with
 * a dish that may use a part of it at once, and the last before which an arrival must be cut. A whole item keeps
 * meanwhile. Of several on one day the first does.
 */
function servicesToCutBefore(item: Item, scenario: Scenario): number[] {
  const arrivals = arrivalsOf(item, scenario);
  const first = Math.min(...arrivals.map(({ service }) => service));
  const services = scenario.services.map((_, service) => service).filter((service) => service >= first);
  if (workIsLimited(scenario)) return services;
  const forced = new Set(arrivals.map(({ lastService }) => lastService));
  const reachable = partsReachableFrom(item, scenario);
  const usedAt = (service: number): boolean =>
    scenario.dishes.some(
      (dish) =>
        dish.services.includes(service) &&
        dish.lines.some((line) => line.from.some(({ part }) => reachable.has(part))),
    );
  const dayOf = (service: number): number => scenario.services[service]?.day ?? 0;
  return services
    .filter((service) => forced.has(service) || usedAt(service))
    .filter((service, index, worthwhile) => {
      const before = worthwhile[index - 1];
      const arrivesHere = arrivals.some((arrival) => arrival.service === service);
      return before === undefined || dayOf(before) !== dayOf(service) || arrivesHere;
    });
}

/**
 * Without services that repeat an earlier one, whose lot is as good on every day of use, with no arrival in between.
 * Not so where a lot counts for itself: in permitted stock, in pieces worked at a loss or of two items, and in steps
 * worked at a loss for several things.
 */
function withoutRepeats(item: Item, services: readonly number[], scenario: Scenario): readonly number[] {
  if (workIsLimited(scenario)) return services;
  const reachable = partsReachableFrom(item, scenario);
  const ofOthers = new Set(
    scenario.items.flatMap((other) => (other === item ? [] : [...partsReachableFrom(other, scenario)])),
  );
  const countsForItself = ({ name, carry, pieceWeight }: Part): boolean => {
    const atLoss = stepsFrom(name, scenario).filter(losesWeight);
    return (
      carry !== null ||
      atLoss.some((step) => isWorkedForMore(step, scenario)) ||
      (pieceWeight !== null && (ofOthers.has(name) || atLoss.length > 0))
    );
  };
  if (scenario.parts.some((part) => reachable.has(part.name) && countsForItself(part))) return services;
  const arrivals = arrivalsOf(item, scenario);
  const arrivesAfter = (before: number, service: number): boolean =>
    arrivals.some((arrival) => arrival.service > before && arrival.service <= service);
  const kept: number[] = [];
  for (const service of services) {
    const before = kept.at(-1);
    const isRepeat =
      before !== undefined &&
      !arrivesAfter(before, service) &&
      [...reachable].every((part) => isAsGood(part, before, service, scenario));
    if (!isRepeat) kept.push(service);
  }
  return kept;
}

/** Whether a part cut before the earlier service may be used wherever one cut before the later may. */
function isAsGood(part: string, earlier: number, later: number, scenario: Scenario): boolean {
  const lastPlanDay = scenario.services.at(-1)?.day ?? 0;
  const lotOf = (service: number): Lot => ({ part, origin: { kind: "cut", service } });
  const days = scenario.dishes
    .filter((dish) => takes(dish, part))
    .flatMap(({ services }) => services.map((service) => scenario.services[service]?.day ?? 0));
  const lastsAsLong = (lastDayOf: (lot: Lot) => number | null): boolean => {
    const [first, second] = [lastDayOf(lotOf(earlier)), lastDayOf(lotOf(later))];
    return first === null || days.every((day) => day <= first || (second !== null && day > second));
  };
  return (
    lastsAsLong((lot) => lastDayOfLot(lot, scenario)) &&
    lastsAsLong((lot) => lastDayLeftByLot(lot, lastPlanDay, scenario))
  );
}

function takes({ lines }: Dish, part: string): boolean {
  return lines.some(({ from }) => from.some((source) => source.part === part));
}

/** Whether more than one of the things it gives is wanted, or what it gives first is no food. */
function isWorkedForMore({ yields }: Step, scenario: Scenario): boolean {
  const isWanted = (part: string): boolean =>
    scenario.dishes.some((dish) => takes(dish, part)) || stepsFrom(part, scenario).length > 0;
  const [first] = yields;
  const isFood = scenario.parts.some(({ name, class: kind }) => name === first?.part && kind === "food");
  return !isFood || yields.filter(({ part }) => isWanted(part)).length > 1;
}

function losesWeight({ yields, water }: Step): boolean {
  return !water.isZero() || yields.length !== 1 || yields.some(({ fraction }) => !fraction.equals(ONE));
}

function workIsLimited(scenario: Scenario): boolean {
  return (
    handsAreLimited(scenario) ||
    storesAreLimited(scenario) ||
    scenario.steps.some(({ capacity }) => capacity !== null)
  );
}

function storesAreLimited({ limits }: Scenario): boolean {
  return limits.chilled !== null || limits.frozen !== undefined;
}

function partsReachableFrom(item: Item, scenario: Scenario): Set<string> {
  const reachable = new Set<string>();
  const visit = (part: string): void => {
    if (reachable.has(part)) return;
    reachable.add(part);
    for (const step of stepsFrom(part, scenario)) for (const output of step.yields) visit(output.part);
  };
  for (const breakdown of item.breakdowns) for (const { part } of breakdown.yields) visit(part);
  return reachable;
}

export interface Arrival {
  readonly service: number;
  /** Last service before which what arrived may be cut. */
  readonly lastService: number;
  /** Whether it is good beyond the last service's day, and nothing is said of where it goes then. */
  readonly outlastsPlan: boolean;
  readonly source: { readonly kind: "delivery" } | { readonly kind: "onHand"; readonly index: number };
}

/** Every way an item can come in, with the last service before which it still keeps. */
export function arrivalsOf(item: Item, scenario: Scenario): Arrival[] {
  const lastPlanDay = scenario.services.at(-1)?.day ?? 0;
  const arrival = (service: number, lastDay: number | null, source: Arrival["source"]): Arrival => ({
    service,
    lastService:
      lastDay === null
        ? scenario.services.length - 1
        : scenario.services.reduce((last, { day }, index) => (day <= lastDay ? index : last), service),
    outlastsPlan: lastDay === null || lastDay > lastPlanDay,
    source,
  });
  const deliveries = (item.buying?.deliveries ?? []).map((service) => {
    const day = scenario.services[service]?.day ?? 0;
    return arrival(service, item.keepsDays === null ? null : day + item.keepsDays - 1, { kind: "delivery" });
  });
  const stock = item.onHand.map(({ lastDay, destination }, index) => ({
    ...arrival(0, lastDay, { kind: "onHand", index }),
    ...(destination === undefined ? {} : { outlastsPlan: false }),
  }));
  return [...deliveries, ...stock];
}

function handsAreLimited({ limits, services }: Scenario): boolean {
  return limits.handsMinutes !== null || services.some(({ handsMinutes }) => handsMinutes !== null);
}
