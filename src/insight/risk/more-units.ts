import type { Scenario } from "../../kitchen/index.js";
import { toCurrency } from "../../quantity/index.js";
import { type Serving, type Tally, tally } from "./serving.js";
import type { Layout } from "./simulation.js";

/** Order units of an item beside those of the plan. */
export interface MoreUnits {
  readonly item: string;
  readonly orderUnits: number;
}

/** What it takes to have a dish in full with at least this chance. */
export interface Step {
  readonly level: number;
  /** Null where no number of units that was tried does it. */
  readonly units: readonly MoreUnits[] | null;
  /** The chance reached with them. */
  readonly chance: number;
}

/** With more order units than this of all items together, or than an item is cut by the plan, no further are tried. */
const MOST_UNITS = 40;

interface Trial {
  readonly serving: Serving;
  readonly layout: Layout;
  readonly scenario: Scenario;
  readonly draws: number;
}

/**
 * For each of the chances asked, in rising order, the order units that must be bought beside the plan's: always of
 * the item that gives most for its price of what the dish's shortest line is filled from, cut as the plan cuts it.
 * Draws in which the dish is there in full stay so with more, so only the others are served again.
 */
export function moreUnits(cooking: number, first: Tally, levels: readonly number[], trial: Trial): Step[] {
  const counts = new Map<number, number>();
  let now = first;
  return levels.map((level): Step => {
    const isReached = (found: Tally): boolean => chanceOf(found, trial.draws) >= level;
    while (!isReached(now)) {
      const cut = cutFor(now.worstLine, trial);
      const before = cut === null ? 0 : (counts.get(cut) ?? 0);
      const room = MOST_UNITS - [...counts.values()].reduce((sum, count) => sum + count, 0);
      const most = cut === null ? 0 : Math.min(before + room, asManyAgain(cut, trial));
      if (cut === null || most <= before) return { level, units: null, chance: chanceOf(now, trial.draws) };
      const found = fewestMore(cut, most, { cooking, now, counts, trial, isReached });
      counts.set(cut, found.orderUnits);
      now = found.tally;
    }
    return { level, units: unitsOf(counts, trial), chance: chanceOf(now, trial.draws) };
  });
}

interface Search {
  readonly cooking: number;
  readonly now: Tally;
  readonly counts: ReadonlyMap<number, number>;
  readonly trial: Trial;
  readonly isReached: (found: Tally) => boolean;
}

/** The fewest order units of a cut with which the chance is reached, or another item is what is short; else the most. */
function fewestMore(
  cut: number,
  most: number,
  { cooking, now, counts, trial, isReached }: Search,
): { orderUnits: number; tally: Tally } {
  const isEnough = (found: Tally): boolean => isReached(found) || cutFor(found.worstLine, trial) !== cut;
  const withUnits = (orderUnits: number, from: Tally): Tally => {
    const extras = [...new Map(counts).set(cut, orderUnits)].map(([index, count]) => ({
      cut: index,
      orderUnits: count,
    }));
    return tally(trial.serving, trial.layout, from.short, [cooking], extras)[0] ?? from;
  };
  let low = { orderUnits: counts.get(cut) ?? 0, tally: now };
  let high: typeof low | null = null;
  for (let step = 1; high === null; step *= 2) {
    const orderUnits = Math.min(most, low.orderUnits + step);
    const found = { orderUnits, tally: withUnits(orderUnits, low.tally) };
    if (isEnough(found.tally)) high = found;
    else if (orderUnits === most) return found;
    else low = found;
  }
  while (high.orderUnits - low.orderUnits > 1) {
    const orderUnits = Math.floor((low.orderUnits + high.orderUnits) / 2);
    const found = { orderUnits, tally: withUnits(orderUnits, low.tally) };
    if (isEnough(found.tally)) high = found;
    else low = found;
  }
  return high;
}

export function chanceOf({ short }: Tally, draws: number): number {
  return 1 - short.length / draws;
}

/** The cut of the plan whose units give most for their price of what the line is filled from. */
function cutFor(line: number | null, { layout, scenario }: Trial): number | null {
  const sources = layout.lines[line ?? -1]?.lots ?? [];
  const wanted = new Set(sources.flatMap((lot) => originsOf(lot, layout)));
  let best: number | null = null;
  let most = 0;
  layout.cuts.forEach(({ item, lots, planned, units }, index) => {
    const { buying = null, orderUnit } = scenario.items[item] ?? {};
    if (buying === null || orderUnit === undefined) return;
    const given = planned.reduce((sum, weight, at) => sum + (wanted.has(lots[at] ?? -1) ? weight : 0), 0);
    const price = toCurrency(buying.price).div(orderUnit.size).toNumber();
    const forPrice = given / units / Math.max(price, 1e-4);
    if (forPrice <= most) return;
    most = forPrice;
    best = index;
  });
  return best;
}

/** Order units of what the cut's item is cut by the plan in all. */
function asManyAgain(cut: number, { layout, scenario }: Trial): number {
  const item = layout.cuts[cut]?.item ?? -1;
  const units = layout.cuts.reduce((sum, each) => sum + (each.item === item ? each.units : 0), 0);
  return Math.ceil(units / (scenario.items[item]?.orderUnit.size.toNumber() ?? 1) - 1e-9);
}

/** The lot, and the lots that the plan's steps make it from. */
function originsOf(lot: number, layout: Layout): number[] {
  const sources = layout.services.flatMap(({ draws }) =>
    draws.flatMap((each) =>
      each.preps.some(({ outputs }) => outputs.some((output) => output.lot === lot)) && each.lot !== lot
        ? [each.lot]
        : [],
    ),
  );
  return [lot, ...new Set(sources.flatMap((source) => originsOf(source, layout)))];
}

function unitsOf(counts: ReadonlyMap<number, number>, { layout, scenario }: Trial): MoreUnits[] {
  const items = new Map<string, number>();
  for (const [cut, count] of counts) {
    const item = scenario.items[layout.cuts[cut]?.item ?? -1]?.name ?? "";
    items.set(item, (items.get(item) ?? 0) + count);
  }
  return [...items].map(([item, orderUnits]) => ({ item, orderUnits }));
}
