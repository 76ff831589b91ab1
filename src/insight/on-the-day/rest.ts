import { leastLotCosts, takenBy } from "../../allocation/index.js";
import {
  addDays,
  type Course,
  type Decision,
  type Destination,
  type Dish,
  type HappenedFile,
  type Item,
  type ItemOnHand,
  type Lot,
  type LotOrigin,
  lotKey,
  type PartOnHand,
  type Purchase,
  type Scenario,
  type Service,
} from "../../kitchen/index.js";
import {
  Decimal,
  larger,
  milligrams,
  minus,
  money,
  NO_MONEY,
  NO_WEIGHT,
  plus,
  scale,
  toGrams,
  toKilograms,
  type Weight,
} from "../../quantity/index.js";
import { lastDayOfLot } from "../../safety/index.js";
import { gathered, itemLotsLeft, sendKey } from "./ended.js";
import type { Past } from "./past.js";

/** The scenario with the covers that are expected now. */
export function withCovers(scenario: Scenario, { covers = {} }: HappenedFile): Scenario {
  const services = scenario.services.map((service) => {
    const now = covers[service.name];
    if (now === undefined) return service;
    const courses = service.courses.map((course) => ({
      ...course,
      portions: course.takeUp.times(now).ceil().toNumber(),
    }));
    return { ...service, covers: now, courses };
  });
  return { ...scenario, services };
}

/** What is still to be planned, as a scenario of its own: what is left of items and parts is stock on hand. */
export function restOf(past: Past, scenario: Scenario, canBuy: readonly string[]): Scenario {
  const { before, left } = past;
  const first = scenario.services[before];
  const day = first?.day ?? 0;
  const costs = leastLotCosts(scenario);
  const partsOnHand = left.map(({ lot, weight }): PartOnHand => {
    const lastDay = lastDayOfLot(lot, scenario);
    return {
      part: lot.part,
      weight,
      value: money(toKilograms(weight).times(Math.max(0, costs(lot)).toFixed(6))),
      useBy: lastDay === null ? null : addDays(scenario.firstDate, lastDay),
      ...heldSince(lot, lastDay, day, scenario),
    };
  });
  const services = scenario.services
    .slice(before)
    .map((_, index) => serviceLeft(before + index, past, scenario));
  const isOffered = (dish: Dish, at: number): boolean => {
    const had = scenario.services[at]?.courses.some(({ name }) => name === dish.course) ?? false;
    return !had || (services[at - before]?.courses.some(({ name }) => name === dish.course) ?? false);
  };
  return {
    ...scenario,
    firstDate: first?.date ?? scenario.firstDate,
    services,
    items: scenario.items.map((item) => itemLeft(item, past, scenario, canBuy.includes(item.name))),
    dishes: scenario.dishes.flatMap((dish) => dishLeft(dish, past, scenario, isOffered)),
    destinations: scenario.destinations.map((destination) => ({
      ...destination,
      limit: limitLeft(destination, past.decision, scenario),
    })),
    partsOnHand,
  };
}

/** What a lot was when the plan began, or when it was cut, by the days of the rest: from it the rest's dates follow. */
function heldSince(
  { origin }: Lot,
  lastDay: number | null,
  day: number,
  scenario: Scenario,
): Pick<PartOnHand, "lastDay" | "destination" | "since"> {
  const from = (of: number | null): number | null => (of === null ? null : of - day);
  if (origin.kind === "cut")
    return {
      lastDay: from(lastDay),
      since: { how: "cut", day: (scenario.services[origin.service]?.day ?? 0) - day },
    };
  const stock = scenario.partsOnHand[origin.index];
  if (stock === undefined) throw new RangeError(`there is no stock on hand ${origin.index}`);
  return {
    lastDay: from(stock.lastDay),
    ...(stock.destination === undefined ? {} : { destination: stock.destination }),
    since: { how: "on hand", day: -day, part: stock.part },
  };
}

/** What a destination may still take; null where it takes any weight. */
function limitLeft(destination: Destination, done: Decision, scenario: Scenario): Weight | null {
  if (destination.limit === null) return null;
  const taken = milligrams(BigInt(takenBy(destination, done, scenario).ceil().toFixed(0)));
  return larger(NO_WEIGHT, minus(destination.limit, taken));
}

/**
 * A service with what waits for it: portions cooked before. A course that has all of them, and dishes enough, is left out.
 */
function serviceLeft(at: number, past: Past, scenario: Scenario): Service {
  const service = scenario.services[at];
  if (service === undefined) throw new RangeError(`there is no service ${at}`);
  const waiting = (fits: (dish: Dish) => boolean): number => portionsWaiting(past, at, scenario, fits);
  const courses = service.courses.flatMap((course): Course[] => {
    const isOfIt = (dish: Dish): boolean => dish.course === course.name;
    const portions = course.portions - waiting(isOfIt);
    const shown = scenario.dishes.filter((dish) => isOfIt(dish) && waiting((each) => each === dish) > 0);
    const isDone = portions <= 0 && shown.length >= (course.leastDishes ?? 0);
    return isDone ? [] : [{ ...course, portions }];
  });
  const cooked = scenario.dishes
    .map((dish) => ({
      ...{ dish: dish.name, course: dish.course, diets: dish.diets },
      portions: waiting((each) => each === dish),
    }))
    .filter(({ portions }) => portions > 0);
  return {
    ...service,
    day: service.day - (scenario.services[past.before]?.day ?? 0),
    courses,
    // Where all of every course waits, nothing more is eaten that could be fit for a diet.
    diets: service.courses.length > 0 && courses.length === 0 ? [] : service.diets,
    waiting: cooked,
  };
}

/** Portions cooked already that a service still to come is to eat. */
function portionsWaiting(
  { decision }: Past,
  service: number,
  scenario: Scenario,
  fits: (dish: Dish) => boolean,
): number {
  return decision.cookings.reduce((sum, { dish: name, served }) => {
    const dish = scenario.dishes.find((each) => each.name === name);
    if (dish === undefined || !fits(dish)) return sum;
    return sum + served.reduce((all, at) => all + (at.service === service ? at.portions : 0), 0);
  }, 0);
}

/** A dish at the services that still want of it, with the portions of it that do not wait there already. */
function dishLeft(
  dish: Dish,
  past: Past,
  scenario: Scenario,
  isOffered: (dish: Dish, at: number) => boolean,
): Dish[] {
  const { portions } = dish;
  const waitingAt = (at: number): number => portionsWaiting(past, at, scenario, (other) => other === dish);
  const open = dish.services.filter(
    (at) => at >= past.before && isOffered(dish, at) && (portions === null || waitingAt(at) < portions.most),
  );
  if (open.length === 0) return [];
  const services = open.map((at) => at - past.before);
  if (portions === null) return [{ ...dish, services }];
  const most = Math.max(...open.map(waitingAt));
  return [
    {
      ...dish,
      services,
      portions: { least: Math.max(0, portions.least - most), most: portions.most - most },
    },
  ];
}

function itemLeft(item: Item, past: Past, scenario: Scenario, canBuy: boolean): Item {
  const { before, decision } = past;
  const day = scenario.services[before]?.day ?? 0;
  const bought = decision.purchases.filter((purchase) => purchase.item === item.name);
  const values = [
    ...item.onHand.map(({ value }) => value),
    ...bought.map(({ cost, delivery = NO_MONEY }) => plus(cost, delivery)),
  ];
  const onHand = itemLotsLeft(item, decision, scenario)
    .flatMap(({ weight, left, lastDay, destination }, index): ItemOnHand[] => {
      if (left === NO_WEIGHT) return [];
      const part = new Decimal(left.toString()).div(weight.toString());
      const units =
        item.measure === "whole" ? toGrams(left).div(toGrams(item.unitWeight)).round() : toKilograms(left);
      const value = scale(values[index] ?? NO_MONEY, part);
      return [
        {
          ...{ units, weight: left, value, lastDay: lastDay === null ? null : lastDay - day },
          ...(destination === undefined ? {} : { destination }),
        },
      ];
    })
    .sort((a, b) => (a.lastDay ?? Infinity) - (b.lastDay ?? Infinity));
  if (item.buying === null) return { ...item, onHand };
  const orders = bought.reduce((sum, { orderUnits }) => sum + orderUnits, 0);
  const { least, most } = item.buying;
  const deliveries = [
    ...(canBuy ? [0] : []),
    ...item.buying.deliveries.filter((service) => service > before).map((service) => service - before),
  ];
  const buying = {
    ...item.buying,
    deliveries,
    least: Math.max(0, least - orders),
    most: most === null ? null : Math.max(0, most - orders),
  };
  const rest = { ...item, onHand, buying: deliveries.length === 0 ? null : buying };
  return canBuy ? rest : { ...rest, inShops: { ...buying, deliveries: [0], least: 0 } };
}

/** What was done and what is decided for the rest, as one decision about the whole scenario. */
export function wholeOf(
  { before, decision: past, left }: Past,
  rest: Decision,
  scenario: Scenario,
): Decision {
  const at = <T extends { readonly service: number }>(entry: T): T => ({
    ...entry,
    service: entry.service + before,
  });
  const origin = (from: LotOrigin): LotOrigin =>
    from.kind === "cut"
      ? { kind: "cut", service: from.service + before }
      : (left[from.index]?.lot.origin ?? from);
  const lot = ({ part, origin: from }: Lot): Lot => ({ part, origin: origin(from) });
  return {
    purchases: joined([...past.purchases, ...rest.purchases.map(at)]),
    cuts: [...past.cuts, ...rest.cuts.map(at)],
    binned: [...past.binned, ...rest.binned.map(at)],
    keptItems: rest.keptItems.map(at),
    preps: [...past.preps, ...rest.preps.map((prep) => ({ ...at(prep), from: lot(prep.from) }))],
    goings: [...past.goings, ...rest.goings.map((going) => ({ ...at(going), lot: lot(going.lot) }))],
    cookings: [
      ...past.cookings,
      ...rest.cookings.map((cooking) => ({ ...at(cooking), served: cooking.served.map(at) })),
    ],
    sends: gathered([...past.sends, ...rest.sends.map((send) => ({ ...send, lot: lot(send.lot) }))], sendKey),
    kept: gathered(
      rest.kept.map(({ lot: of, weight }) => ({
        ...{ lot: lot(of), weight },
        lastDay: lastDayOfLot(lot(of), scenario),
      })),
      (kept) => lotKey(kept.lot),
    ),
  };
}

/**
 * Items that can be bought before a service: those that are said to be; where nothing is said, those that are
 * delivered on that very day, but for what came short.
 */
export function buyableBefore(
  before: number,
  { purchases }: Decision,
  { items, services }: Scenario,
  { can_buy: said, delivered = {} }: HappenedFile,
): readonly string[] {
  if (said !== undefined) return said;
  const day = services[before]?.day;
  return items
    .filter(({ name, buying }) => {
      const isToday = buying?.deliveries.some((at) => at <= before && services[at]?.day === day) ?? false;
      const due = purchases.filter(({ item, service }) => item === name && service <= before);
      const planned = due.reduce((sum, { orderUnits }) => sum + orderUnits, 0);
      return isToday && (delivered[name] ?? planned) >= planned;
    })
    .map(({ name }) => name);
}

/** Purchases of one item for one service as one: what is bought on the day joins what had been ordered for it. */
export function joined(purchases: readonly Purchase[]): Purchase[] {
  const byItem = new Map<string, Purchase>();
  for (const purchase of purchases) {
    const key = JSON.stringify([purchase.item, purchase.service]);
    const known = byItem.get(key);
    byItem.set(key, known === undefined ? purchase : sumOf(known, purchase));
  }
  return [...byItem.values()];
}

function sumOf(one: Purchase, other: Purchase): Purchase {
  const delivery = plus(one.delivery ?? NO_MONEY, other.delivery ?? NO_MONEY);
  return {
    ...one,
    orderUnits: one.orderUnits + other.orderUnits,
    weight: plus(one.weight, other.weight),
    cost: plus(one.cost, other.cost),
    ...(delivery === NO_MONEY ? {} : { delivery }),
  };
}
