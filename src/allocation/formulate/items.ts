import { type Breakdown, type Item, serviceName } from "../../kitchen/index.js";
import { ZERO } from "../../quantity/index.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { type Arrival, arrivalsOf } from "../lot-graph.js";
import { Sum } from "../model.js";
import { addBuys, unitsForTerms } from "./buying.js";
import type { BuildContext } from "./context.js";

/** More than is of use is cut only to bring an average cost down, and so many times as much at most. */
const DILUTING = 6;

/** Whole items: buying, cutting, binning and keeping them, with what came in first going out first. */
export function addItems(context: BuildContext): void {
  for (const item of context.scenario.items) addItem(item, context);
}

function addItem(item: Item, context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const arrivals = arrivalsOf(item, scenario);
  if (arrivals.length === 0) return;
  const integer = item.measure === "whole";
  const held = item.onHand.reduce((sum, { units }) => sum + rate(units), 0);
  const size = rate(item.orderUnit.size);

  const cutUppers = new Map<string, number>();
  for (const breakdown of item.breakdowns) {
    cutUppers.set(breakdown.name, 0);
    for (const service of context.lotGraph.cutServices.get(item.name) ?? []) {
      const upper = mostCut(item, breakdown, service, held, context);
      cutUppers.set(breakdown.name, (cutUppers.get(breakdown.name) ?? 0) + upper);
      const tag = { family: "cut", item: item.name, breakdown: breakdown.name, service };
      const name = `cut ${item.name} ${breakdown.name} for ${serviceName(scenario, service)}`;
      const variable = builder.variable(tag, name, upper, { integer });
      handles.cuts.push({ item, breakdown, service, variable });
    }
  }
  const forTerms = unitsForTerms(item, context) * size;
  const mostUsed = Math.max(
    forTerms,
    [...cutUppers.values()].reduce((sum, upper) => sum + upper, 0) + carriedUnits(item),
  );
  addBuys(item, { mostUsed, held }, context);

  const mostHeld = held + handles.buys.filter((buy) => buy.item === item).length * mostUsed + size;
  const surplusPossible =
    item.measure === "loose" ||
    size !== 1 ||
    held > 0 ||
    (item.buying?.least ?? 0) > 0 ||
    forTerms > 0 ||
    arrivals.some(expires);
  const staying = mostStaying(item, arrivals, mostHeld);
  const binServices = surplusPossible ? servicesToBinAfter(arrivals, context) : [];
  for (const service of binServices) {
    const tag = { family: "bin", item: item.name, service };
    const name = `bin ${item.name} after ${serviceName(scenario, service)}`;
    handles.bins.push({ item, service, variable: builder.variable(tag, name, mostHeld, { integer }) });
  }
  if (item.carry !== null && arrivals.some(({ outlastsPlan }) => outlastsPlan)) {
    const tag = { family: "keep item", item: item.name };
    const upper = carriedUnits(item);
    const variable = builder.variable(tag, `keep ${item.name}`, upper, { integer });
    handles.keptItems.push({ item, variable });
  }
  if (surplusPossible && staying > 0) {
    const tag = { family: "stay item", item: item.name };
    const variable = builder.variable(tag, `${item.name} left in stock`, staying, { integer });
    handles.stockItems.push({ item, variable });
  }
  addBalances(item, held, mostHeld, context);
  addLife(item, arrivals, context);
}

/** Units that may stay in stock for no named use: all that outlast the plan. */
function mostStaying(item: Item, arrivals: readonly Arrival[], mostHeld: number): number {
  const lasting = arrivals.filter(({ outlastsPlan }) => outlastsPlan);
  if (lasting.some(({ source }) => source.kind === "delivery")) return mostHeld;
  return lasting.reduce(
    (sum, { source }) =>
      source.kind === "onHand" ? sum + rate(item.onHand[source.index]?.units ?? ZERO) : sum,
    0,
  );
}

/** When its day comes; where the cold room is short, after any service. */
function servicesToBinAfter(arrivals: readonly Arrival[], { scenario }: BuildContext): number[] {
  if (scenario.limits.chilled !== null) return scenario.services.map((_, service) => service);
  return [...new Set(arrivals.filter(expires).map(({ lastService }) => lastService))];
}

function expires(arrival: Arrival): boolean {
  return !arrival.outlastsPlan;
}

function carriedUnits(item: Item): number {
  return item.carry === null ? 0 : kg(item.carry.limit) / kg(item.unitWeight);
}

/**
 * No plan gains by cutting more than the hungriest part can use, but for what is in the house anyway, what is over
 * from whole order units, and what brings an average cost down that is held.
 */
function mostCut(
  item: Item,
  breakdown: Breakdown,
  service: number,
  held: number,
  context: BuildContext,
): number {
  const { lotGraph, demand } = context;
  const wanted = breakdown.yields.map(({ part, fraction }) => {
    const lot = lotGraph.lot(part, { kind: "cut", service });
    const perUnit = rate(fraction) * kg(item.unitWeight);
    return lot === undefined || perUnit === 0 ? 0 : demand.of(lot) / perUnit;
  });
  const size = rate(item.orderUnit.size);
  const deliveries = item.buying?.deliveries.length ?? 0;
  const forced = held + Math.max(item.buying?.least ?? 0, unitsForTerms(item, context) * deliveries) * size;
  const over = item.measure === "loose" || size > 1 ? size * deliveries : 0;
  const useful = Math.max(0, forced, ...wanted) + over;
  const isHeld = breakdown.yields.some(({ part }) => context.heldToCost.has(part));
  const most = isHeld ? DILUTING * useful : useful;
  return item.measure === "whole" ? Math.ceil(most - 1e-9) : most;
}

/** What is left after each service is what was there, plus what came, less what was cut, binned or kept. */
function addBalances(item: Item, held: number, mostHeld: number, context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const last = scenario.services.length - 1;
  let before: number | null = null;
  for (let service = 0; service <= last; service++) {
    const sum = new Sum();
    if (before !== null) sum.add(before, 1);
    for (const { variable } of handles.buys.filter((buy) => buy.item === item && buy.service === service)) {
      sum.add(variable, rate(item.orderUnit.size));
    }
    for (const { variable } of handles.cuts.filter((cut) => cut.item === item && cut.service === service)) {
      sum.add(variable, -1);
    }
    for (const { variable } of handles.bins.filter((bin) => bin.item === item && bin.service === service)) {
      sum.add(variable, -1);
    }
    const onHand = service === 0 ? held : 0;
    if (service === last) {
      for (const kept of [...handles.keptItems, ...handles.stockItems])
        if (kept.item === item) sum.add(kept.variable, -1);
    } else {
      const name = `${item.name} left after ${serviceName(scenario, service)}`;
      const stock = builder.variable({ family: "stock", item: item.name, service }, name, mostHeld);
      handles.stocks.push({ item, service, variable: stock });
      sum.add(stock, -1);
      before = stock;
    }
    const name = `${item.name} at ${serviceName(scenario, service)}`;
    builder.row({ family: "item balance", item: item.name, service }, name, sum, {
      lower: -onHand,
      upper: -onHand,
    });
  }
}

/** What came in is cut, binned or (at the end) kept while it keeps: of what is left after a service, all keeps for longer. */
function addLife(item: Item, arrivals: readonly Arrival[], context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const last = scenario.services.length - 1;
  const bought = new Map(
    handles.buys.filter((buy) => buy.item === item).map((buy) => [buy.service, buy.variable]),
  );
  const left = groupBy(
    handles.stocks.filter((stock) => stock.item === item),
    ({ service }) => service,
  );
  const ends = [...handles.keptItems, ...handles.stockItems].filter((end) => end.item === item);
  for (const end of new Set(arrivals.filter(expires).map(({ lastService }) => lastService))) {
    const lasting = arrivals.filter((arrival) => arrival.service <= end && keepsBeyond(arrival, end));
    for (const start of startsOf(arrivals, end)) {
      const sum = new Sum();
      for (const { variable } of end === last ? ends : left.of(end)) sum.add(variable, 1);
      for (const { variable } of left.of(start - 1)) sum.add(variable, -1);
      let held = 0;
      for (const { source, service } of lasting.filter((arrival) => arrival.service >= start)) {
        if (source.kind === "onHand") held += rate(item.onHand[source.index]?.units ?? ZERO);
        const units = source.kind === "delivery" ? bought.get(service) : undefined;
        if (units !== undefined) sum.add(units, -rate(item.orderUnit.size));
      }
      const name = `${item.name} from ${serviceName(scenario, start)} used by ${serviceName(scenario, end)}`;
      builder.row({ family: "item life", item: item.name, service: end }, name, sum, { upper: held });
    }
  }
}

/**
 * Services from which on it matters what came in that keeps to `end` and no longer: the first; and any later one before
 * which something came that keeps for longer and so could be what is left, were it not used up in between.
 */
function startsOf(arrivals: readonly Arrival[], end: number): number[] {
  const mortal = arrivals.filter((arrival) => !keepsBeyond(arrival, end));
  const last = Math.max(
    ...mortal.filter(({ lastService }) => lastService === end).map(({ service }) => service),
  );
  const firstLasting = Math.min(
    ...arrivals.filter((arrival) => keepsBeyond(arrival, end)).map(({ service }) => service),
  );
  const starts = [...new Set(mortal.map(({ service }) => service))].filter((start) => start <= last);
  const first = Math.min(...starts);
  return starts.filter((start) => start === first || start > firstLasting);
}

function keepsBeyond(arrival: Arrival, service: number): boolean {
  return !expires(arrival) || arrival.lastService > service;
}
