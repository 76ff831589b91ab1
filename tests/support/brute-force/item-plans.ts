import type { Breakdown, Item, Scenario } from "../../../src/kitchen/index.js";
import { everySplit } from "./menus.js";
import { goodsCost } from "./orders.js";
import { binnedFood, lostByCut, peelBeyond } from "./waste.js";
import { perGram, wholeGrams, wholeNumber } from "./whole.js";

/** One way to buy, cut, bin and keep one item. */
export interface ItemPlan {
  readonly item: Item;
  /** Order units bought in all. */
  readonly orders: number;
  /** Order units by the service they come before. */
  readonly bought: readonly number[];
  readonly cuts: readonly ItemCut[];
  readonly binned: number;
  readonly kept: number;
  /** Ten-millionths of the currency unit paid for goods. */
  readonly spend: number;
  /** Ten-millionths credited for whole units kept for their named use. */
  readonly credit: number;
  /** Grams: food of binned units, and what cuts lose beyond the least. */
  readonly waste: number;
  /** Grams of peel beyond the thriftiest breakdown's. */
  readonly peelBeyond: number;
  /** Thousandths of a minute at the board, by service. */
  readonly work: readonly number[];
  /** Grams of whole units in the house after each service, those that close as stock included. */
  readonly stock: readonly number[];
}

export interface ItemCut {
  readonly breakdown: Breakdown;
  readonly service: number;
  readonly units: number;
  readonly grams: number;
}

/** Units with one date; `last` is the last service before which they may be cut. */
interface Stock {
  readonly last: number;
  readonly outlasts: boolean;
  readonly units: number;
}

interface State {
  readonly bought: readonly number[];
  readonly cuts: readonly ItemCut[];
  readonly binned: number;
  readonly stocks: readonly Stock[];
  readonly stock: readonly number[];
}

/**
 * Every way to buy and use one item. A loose item is cut in steps of `grain` grams. Units are taken with the
 * earliest date first, which allows whatever any other order allows.
 */
export function everyItemPlan(item: Item, scenario: Scenario, grain: number): ItemPlan[] {
  const unit = item.measure === "whole" ? wholeGrams(item.unitWeight) : grain;
  const perOrder =
    item.measure === "whole"
      ? wholeNumber(item.orderUnit.size, `order unit of ${item.name}`)
      : exactly(wholeGrams(item.orderUnit.weight), grain);
  const held = item.onHand.map(
    ({ units, weight, lastDay, destination }): Stock => ({
      ...binnedUnlessUsed(lifeOf(0, lastDay, scenario), destination, scenario),
      units:
        item.measure === "whole"
          ? wholeNumber(units, `${item.name} on hand`)
          : exactly(wholeGrams(weight), grain),
    }),
  );
  const most = item.buying?.most ?? (item.buying === null ? 0 : null);
  if (most === null) throw new RangeError(`the referee needs the most of ${item.name} that may be bought`);
  const plans: ItemPlan[] = [];
  const good = held.filter(({ last }) => last >= 0);
  const start: State = { bought: [], cuts: [], binned: units(held) - units(good), stocks: good, stock: [] };
  const visit = (service: number, state: State): void => {
    if (service === scenario.services.length) {
      if (sum(state.bought) < (item.buying?.least ?? 0)) return;
      plans.push(endOf(item, state, unit, scenario));
      return;
    }
    const room = item.buying?.deliveries.includes(service) ? most - sum(state.bought) : 0;
    for (let orders = 0; orders <= room; orders++) {
      const fresh: Stock = {
        ...lifeOf(service, lastDayOf(item, service, scenario), scenario),
        units: orders * perOrder,
      };
      const stocks = orders === 0 ? state.stocks : [...state.stocks, fresh];
      const there = units(stocks);
      for (let cut = 0; cut <= there; cut++) {
        for (const split of everySplit(cut, item.breakdowns.length)) {
          const cuts = item.breakdowns.flatMap((breakdown, index) => {
            const taken = split[index] ?? 0;
            return taken === 0 ? [] : [{ breakdown, service, units: taken, grams: taken * unit }];
          });
          const left = earliestTaken(stocks, cut);
          // Where the cold room is short, a unit may be binned before it must be.
          const mostBinned = scenario.limits.chilled === null ? 0 : units(left);
          for (let early = 0; early <= mostBinned; early++) {
            const after = earliestTaken(left, early);
            const fit = after.filter(({ last, outlasts }) => last > service || outlasts);
            visit(service + 1, {
              bought: [...state.bought, orders],
              cuts: [...state.cuts, ...cuts],
              binned: state.binned + early + units(after) - units(fit),
              stocks: fit,
              stock: [...state.stock, units(fit) * unit],
            });
          }
        }
      }
    }
  };
  visit(0, start);
  return plans;
}

/** After the last service what is left outlasts the plan: kept for its use up to the limit, the rest as stock. */
function endOf(item: Item, state: State, unit: number, scenario: Scenario): ItemPlan {
  const { carry } = item;
  const stock = units(state.stocks);
  const kept = carry === null ? 0 : Math.min(stock, Math.floor(wholeGrams(carry.limit) / unit));
  const ofCuts = (of: (cut: ItemCut) => number): number => sum(state.cuts.map(of));
  return {
    item,
    orders: sum(state.bought),
    cuts: state.cuts,
    binned: state.binned,
    kept,
    bought: state.bought,
    spend: sum(state.bought.map((orders) => goodsCost(item, orders))),
    credit: carry === null ? 0 : kept * unit * perGram(carry.valuePerKilogram),
    waste:
      binnedFood(item, state.binned * unit, scenario) +
      ofCuts(({ breakdown, grams }) => lostByCut(item, breakdown, grams)),
    peelBeyond: ofCuts(({ breakdown, grams }) => peelBeyond(item, breakdown, grams, scenario)),
    work: scenario.services.map((_, service) => workAt(item, state.cuts, service)),
    stock: state.stock,
  };
}

function workAt(item: Item, cuts: readonly ItemCut[], service: number): number {
  const perUnit = wholeGrams(item.unitWeight);
  return sum(
    cuts
      .filter((cut) => cut.service === service)
      .map(({ breakdown, grams }) => ((breakdown.minutes?.toNumber() ?? 0) * 1000 * grams) / perUnit),
  );
}

function lastDayOf(item: Item, service: number, scenario: Scenario): number | null {
  return item.keepsDays === null ? null : (scenario.services[service]?.day ?? 0) + item.keepsDays - 1;
}

function lifeOf(service: number, lastDay: number | null, { services }: Scenario): Omit<Stock, "units"> {
  if (lastDay === null) return { last: services.length - 1, outlasts: true };
  let last = service - 1;
  services.forEach(({ day }, index) => {
    if (index >= service && day <= lastDay) last = index;
  });
  return { last, outlasts: lastDay > (services.at(-1)?.day ?? 0) };
}

/** What keeps but is stated to go to a bin where it is not used does not outlast the plan. */
function binnedUnlessUsed(
  life: Omit<Stock, "units">,
  destination: string | undefined,
  { destinations }: Scenario,
): Omit<Stock, "units"> {
  if (destination === undefined) return life;
  if (destinations.some(({ name, end }) => name === destination && end === "given away"))
    throw new RangeError("the referee gives no whole items away");
  return { ...life, outlasts: false };
}

function earliestTaken(stocks: readonly Stock[], wanted: number): Stock[] {
  let missing = wanted;
  return [...stocks]
    .sort((a, b) => a.last - b.last || Number(a.outlasts) - Number(b.outlasts))
    .flatMap((stock) => {
      const taken = Math.min(missing, stock.units);
      missing -= taken;
      return taken === stock.units ? [] : [{ ...stock, units: stock.units - taken }];
    });
}

function units(stocks: readonly Stock[]): number {
  return sum(stocks.map((stock) => stock.units));
}

function exactly(whole: number, step: number): number {
  if (whole % step !== 0) throw new RangeError(`${whole} g is no multiple of ${step} g`);
  return whole / step;
}

export function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, number) => all + number, 0);
}
