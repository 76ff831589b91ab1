import type { Links } from "./links.js";
import type { LossOf } from "./losses.js";
import type { Random } from "./random.js";

/** Where a neighbourhood is drawn from. */
export interface Terrain {
  readonly links: Links;
  readonly random: Random;
  /** Where most is lost it is looked first. */
  readonly lossOf: LossOf;
  /** Whole columns in which the best point is not what the relaxation would have. */
  readonly astray: readonly number[];
}

/** About so many whole columns that may change together while all else stays. */
export type Neighbourhood = (terrain: Terrain, size: number) => Set<number>;

/** Items that go into the same dishes, with their cuts, purchases and pieces; portions stay. */
const linkedItems: Neighbourhood = (terrain, size) =>
  gather(size, linked(terrain), (item) => terrain.links.wholesOfItem(item));

/** Linked items with all that is cooked of them. */
const itemsWithDishes: Neighbourhood = (terrain, size) => {
  const { links } = terrain;
  return gather(size, linked(terrain), (item) => [
    ...links.wholesOfItem(item),
    ...links.cookingsOf(item).flatMap((cooking) => links.wholesOfCooking(cooking)),
  ]);
};

/** All that is cooked at a service, then what it is cooked of, item by item. */
const menuOfService: Neighbourhood = (terrain, size) => {
  const { links, random } = terrain;
  const service = lossy(links.services, terrain);
  const cookings = random.shuffled(service === undefined ? [] : links.cookingsAt(service));
  const items = random.shuffled([...new Set(cookings.flatMap((cooking) => links.itemsOf(cooking)))]);
  const menu = cookings.map((cooking) => links.wholesOfCooking(cooking));
  return gather(size, [...menu, ...items.map((item) => links.wholesOfItem(item))], (wholes) => wholes);
};

/** Everything of some services on end. */
const wholeServices: Neighbourhood = (terrain, size) => {
  const services = [...terrain.links.services].sort((a, b) => a - b);
  const first = services.indexOf(lossy(services, terrain) ?? 0);
  const order = [...services.slice(first), ...services.slice(0, Math.max(0, first)).reverse()];
  return gather(size, order, (service) => terrain.links.wholesOfService(service));
};

/** Dishes taken from the whole plan, with the items of each. */
const someDishes: Neighbourhood = (terrain, size) => {
  const { links } = terrain;
  return gather(size, inLossyOrder(links.cookings, terrain), (cooking) => [
    ...links.wholesOfCooking(cooking),
    ...links.itemsOf(cooking).flatMap((item) => links.wholesOfItem(item)),
  ]);
};

/** What the relaxation would have otherwise, anywhere. */
const whatIsAstray: Neighbourhood = ({ astray, random }, size) =>
  gather(size, random.shuffled(astray), (column) => [column]);

export const NEIGHBOURHOODS: readonly [Neighbourhood, ...Neighbourhood[]] = [
  wholeServices,
  menuOfService,
  linkedItems,
  itemsWithDishes,
  someDishes,
  whatIsAstray,
];

/** One of them, the likelier the more is lost there; all have a chance. */
function lossy<T extends string | number>(list: readonly T[], { random, lossOf }: Terrain): T | undefined {
  const even = list.reduce((sum, key) => sum + lossOf(key), 0) / Math.max(1, list.length) || 1;
  return random.weighted(list, (key) => lossOf(key) + even / 4);
}

function inLossyOrder<T extends string | number>(list: readonly T[], terrain: Terrain): T[] {
  const left = [...list];
  return list.flatMap(() => {
    const next = lossy(left, terrain);
    return next === undefined ? [] : left.splice(left.indexOf(next), 1);
  });
}

/** Items so ordered that each shares a dish with one before, where there is one. */
function linked(terrain: Terrain): string[] {
  const { links, random } = terrain;
  const order = new Set<string>();
  const seed = lossy(links.items, terrain);
  const queue = seed === undefined ? [] : [seed];
  for (let item = queue.shift(); item !== undefined; item = queue.shift()) {
    if (order.has(item)) continue;
    order.add(item);
    queue.push(...random.shuffled(links.cookingsOf(item).flatMap((cooking) => links.itemsOf(cooking))));
  }
  return [...order];
}

/** The columns of one subject after another until there are enough. */
function gather<T>(
  size: number,
  subjects: readonly T[],
  columnsOf: (subject: T) => readonly number[],
): Set<number> {
  const free = new Set<number>();
  for (const subject of subjects) {
    for (const column of columnsOf(subject)) {
      if (free.size >= size) return free;
      free.add(column);
    }
  }
  return free;
}
