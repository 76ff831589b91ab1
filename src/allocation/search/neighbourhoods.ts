import type { Random } from "../random.js";
import { MENU } from "./dive.js";
import type { LossOf } from "./dual-losses.js";
import type { Links } from "./links.js";
import type { Problem, Relaxation } from "./problem.js";

/** Where a neighbourhood is drawn from. */
export interface Terrain {
  readonly links: Links;
  readonly random: Random;
  /** Where most is lost it is looked first. */
  readonly lossOf: LossOf;
  /** What the best point has otherwise than the relaxation would. */
  readonly differsFromRelaxation: DiffersFromRelaxation;
}

/** So much of a neighbourhood is menu, the rest is what differs from the relaxation under it. */
const MENU_SHARE = 0.5;

/** About so many whole columns that may change together, with the flows between them, while all else stays. */
export type Neighbourhood = (terrain: Terrain, size: number) => Set<number>;

/** Items that go into the same dishes, with their cuts, purchases and pieces; portions stay. */
const linkedItems: Neighbourhood = (terrain, size) =>
  near(
    terrain,
    gather(size, linked(terrain), (item) => terrain.links.wholesOfItem(item)),
  );

/** Linked items with all that is cooked of them. */
const itemsWithDishes: Neighbourhood = (terrain, size) => {
  const { links } = terrain;
  const wholes = gather(size, linked(terrain), (item) => [
    ...links.wholesOfItem(item),
    ...links.cookingsOf(item).flatMap((cooking) => links.wholesOfCooking(cooking)),
  ]);
  return near(terrain, wholes);
};

/** Everything of some services on end. */
const wholeServices: Neighbourhood = (terrain, size) =>
  near(
    terrain,
    gather(size, servicesOnEnd(terrain), (service) => terrain.links.wholesOfService(service)),
  );

/** What the relaxation would have otherwise under this menu: pieces, cuts and purchases anywhere. */
const whatDiffers: Neighbourhood = (terrain, size) => withWhatDiffers(terrain, new Set(), size);

/** The menus of some services on end, with what the relaxation would have otherwise for them. */
const menusOfServices: Neighbourhood = (terrain, size) => {
  const { links } = terrain;
  const menus = gather(size * MENU_SHARE, servicesOnEnd(terrain), (service) =>
    links.cookingsAt(service).flatMap((cooking) => links.wholesOfCooking(cooking)),
  );
  return withWhatDiffers(terrain, menus, size);
};

/** Dishes taken from the whole plan, with what the relaxation would have otherwise for them. */
const someDishes: Neighbourhood = (terrain, size) => {
  const { links } = terrain;
  const menus = gather(size * MENU_SHARE, inLossyOrder(links.cookings, terrain), (cooking) =>
    links.wholesOfCooking(cooking),
  );
  return withWhatDiffers(terrain, menus, size);
};

export const NEIGHBOURHOODS: readonly [Neighbourhood, ...Neighbourhood[]] = [
  whatDiffers,
  menusOfServices,
  someDishes,
  wholeServices,
  linkedItems,
  itemsWithDishes,
];

function near({ links }: Terrain, wholes: ReadonlySet<number>): Set<number> {
  return links.withFlows(wholes);
}

function withWhatDiffers(
  { links, random, differsFromRelaxation }: Terrain,
  menus: ReadonlySet<number>,
  size: number,
): Set<number> {
  const differing = gather(size - menus.size, random.shuffled(differsFromRelaxation(menus)), (column) => [
    column,
  ]);
  return links.withEveryFlow(new Set([...menus, ...differing]));
}

/** From one where much is lost to the last, then back from it to the first. */
function servicesOnEnd(terrain: Terrain): number[] {
  const services = [...terrain.links.services].sort((a, b) => a - b);
  const first = services.indexOf(lossy(services, terrain) ?? 0);
  return [...services.slice(first), ...services.slice(0, Math.max(0, first)).reverse()];
}

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

/** A whole number so far from what the relaxation has differs from it. */
const FAR = 1e-3;

/** Whole columns that a point has otherwise than the relaxation would, with all of the menu held but what is free. */
export type DiffersFromRelaxation = (free: ReadonlySet<number>) => number[];

/**
 * Relaxation-induced neighbourhood search (Danna, Rothberg and Le Pape, Mathematical Programming 102, 2005, from
 * memory). It asks the relaxation anew each time: what differs under this menu says more than what does under none.
 */
export function differsFromRelaxation(
  { matrix, wholes, tags }: Problem,
  relaxation: Relaxation,
  point: Float64Array,
): DiffersFromRelaxation {
  return (free) => {
    for (const column of wholes) {
      const value = point[column] ?? 0;
      const isHeld = MENU.has(tags[column]?.family ?? "") && !free.has(column);
      relaxation.bound(
        column,
        isHeld ? value : (matrix.lower[column] ?? 0),
        isHeld ? value : (matrix.upper[column] ?? 0),
      );
    }
    const relaxed = relaxation.solve();
    if (relaxed === null) return [];
    return wholes.filter((column) => Math.abs((point[column] ?? 0) - (relaxed[column] ?? 0)) > FAR);
  };
}
