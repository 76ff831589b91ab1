import { lastDayOfLot, leastLotCosts, lotKey } from "../../allocation/index.js";
import {
  addDays,
  type Decision,
  type Dish,
  type HappenedFile,
  type Item,
  type ItemOnHand,
  type Lot,
  type LotOrigin,
  type PartOnHand,
  type Scenario,
} from "../../kitchen/index.js";
import {
  Decimal,
  minus,
  money,
  NO_WEIGHT,
  scale,
  smaller,
  toGrams,
  toKilograms,
  type Weight,
} from "../../quantity/index.js";
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
  const services = scenario.services.slice(before).map((service, index) => {
    const served = (fits: (dish: Dish) => boolean): number =>
      portionsWaiting(past, before + index, scenario, fits);
    return {
      ...service,
      day: service.day - day,
      courses: service.courses.map((course) => ({
        ...course,
        portions: Math.max(0, course.portions - served(({ course: of }) => of === course.name)),
      })),
      diets: service.diets.map(({ diet, covers }) => ({
        diet,
        covers: Math.max(0, covers - served(({ diets }) => diets.includes(diet))),
      })),
    };
  });
  const partsOnHand = left.map(({ lot, weight }): PartOnHand => {
    const lastDay = lastDayOfLot(lot, scenario);
    return {
      part: lot.part,
      weight,
      value: money(toKilograms(weight).times(Math.max(0, costs(lot)).toFixed(6))),
      useBy: lastDay === null ? null : addDays(scenario.firstDate, lastDay),
      lastDay: lastDay === null ? null : lastDay - day,
    };
  });
  return {
    ...scenario,
    firstDate: first?.date ?? scenario.firstDate,
    services,
    items: scenario.items.map((item) => itemLeft(item, past, scenario, canBuy.includes(item.name))),
    dishes: scenario.dishes.flatMap((dish) => {
      const at = dish.services.filter((service) => service >= before).map((service) => service - before);
      return at.length === 0 ? [] : [{ ...dish, services: at, portions: portionsLeft(dish, past, scenario) }];
    }),
    partsOnHand,
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

function portionsLeft(dish: Dish, past: Past, scenario: Scenario): Dish["portions"] {
  if (dish.portions === null) return null;
  const waiting = dish.services
    .filter((service) => service >= past.before)
    .map((service) => portionsWaiting(past, service, scenario, (other) => other === dish));
  const most = Math.max(0, ...waiting);
  return { least: Math.max(0, dish.portions.least - most), most: Math.max(0, dish.portions.most - most) };
}

function itemLeft(item: Item, past: Past, { services }: Scenario, canBuy: boolean): Item {
  const { before, decision } = past;
  const day = services[before]?.day ?? 0;
  const bought = decision.purchases.filter((purchase) => purchase.item === item.name);
  const lots: ItemOnHand[] = [
    ...item.onHand,
    ...bought.map(({ orderUnits, weight, cost, service }) => ({
      units: item.orderUnit.size.times(orderUnits),
      weight,
      value: cost,
      lastDay: item.keepsDays === null ? null : (services[service]?.day ?? 0) + item.keepsDays - 1,
    })),
  ].sort((a, b) => (a.lastDay ?? Infinity) - (b.lastDay ?? Infinity));
  let used = [...decision.cuts, ...decision.binned].reduce(
    (sum, entry) => (entry.item === item.name ? ((sum + entry.weight) as Weight) : sum),
    NO_WEIGHT,
  );
  const onHand = lots.flatMap((lot): ItemOnHand[] => {
    const taken = smaller(used, lot.weight);
    used = minus(used, taken);
    const weight = minus(lot.weight, taken);
    if (weight === NO_WEIGHT) return [];
    const part = new Decimal(weight.toString()).div(lot.weight.toString());
    const units =
      item.measure === "whole" ? toGrams(weight).div(toGrams(item.unitWeight)).round() : toKilograms(weight);
    const lastDay = lot.lastDay === null ? null : Math.max(0, lot.lastDay - day);
    return [{ units, weight, value: scale(lot.value, part), lastDay }];
  });
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
    least: deliveries.length === 0 ? 0 : Math.max(0, least - orders),
    most: most === null ? null : Math.max(0, most - orders),
  };
  return { ...item, onHand, buying: deliveries.length === 0 ? null : buying };
}

/** What was done and what is decided for the rest, as one decision about the whole. */
export function wholeOf({ before, decision: past, left }: Past, rest: Decision): Decision {
  const at = <T extends { readonly service: number }>(entry: T): T => ({
    ...entry,
    service: entry.service + before,
  });
  const origin = (from: LotOrigin): LotOrigin =>
    from.kind === "cut"
      ? { kind: "cut", service: from.service + before }
      : (left[from.index]?.lot.origin ?? from);
  const lot = ({ part, origin: from }: Lot): Lot => ({ part, origin: origin(from) });
  const gathered = <T extends { readonly lot: Lot; readonly weight: Weight }>(
    entries: readonly T[],
    keyOf: (entry: T) => string,
  ): T[] => {
    const sums = new Map<string, T>();
    for (const entry of entries) {
      const known = sums.get(keyOf(entry));
      sums.set(
        keyOf(entry),
        known === undefined ? entry : { ...known, weight: (known.weight + entry.weight) as Weight },
      );
    }
    return [...sums.values()];
  };
  return {
    purchases: [...past.purchases, ...rest.purchases.map(at)],
    cuts: [...past.cuts, ...rest.cuts.map(at)],
    binned: [...past.binned, ...rest.binned.map(at)],
    keptItems: rest.keptItems.map(at),
    preps: [...past.preps, ...rest.preps.map((prep) => ({ ...at(prep), from: lot(prep.from) }))],
    goings: [...past.goings, ...rest.goings.map((going) => ({ ...at(going), lot: lot(going.lot) }))],
    cookings: [
      ...past.cookings,
      ...rest.cookings.map((cooking) => ({ ...at(cooking), served: cooking.served.map(at) })),
    ],
    sends: gathered(
      rest.sends.map((send) => ({ ...send, lot: lot(send.lot) })),
      (send) => `${lotKey(send.lot)} ${send.destination}`,
    ),
    kept: gathered(
      rest.kept.map((kept) => ({ ...kept, lot: lot(kept.lot) })),
      (kept) => lotKey(kept.lot),
    ),
  };
}
