import { supplierOf } from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import { Sum } from "../builder.js";
import { currency } from "../floats.js";
import { type BuildContext, type BuyHandle, type ChargeHandle, serviceName } from "./context.js";

/** A range of what an order comes to, in currency units: no less than so much where the variable is 1. */
export interface OrderBand {
  readonly least: number;
  readonly isReached: number;
}

/** The ranges of a charged delivery's order, of which one is reached where the order is made. */
export type OrderBands = (charge: ChargeHandle) => readonly OrderBand[];

/** So many ranges tell all orders apart; of more, each is so much wider than the one before that no more are needed. */
const MOST_BANDS = 16;
/** Orders that differ by less come to the same. */
const SAME_ORDER = 1e-9;

/** Ranges are added to the model when they are first asked for. */
export function orderBands(context: BuildContext): OrderBands {
  const known = new Map<ChargeHandle, readonly OrderBand[]>();
  return (charge) => {
    const bands = known.get(charge) ?? addBands(charge, context);
    known.set(charge, bands);
    return bands;
  };
}

function addBands({ supplier, service, variable: isMade }: ChargeHandle, context: BuildContext): OrderBand[] {
  const { scenario, builder, handles } = context;
  const buys = handles.buys.filter((buy) => buy.item.supplier === supplier && buy.service === service);
  const tag = { family: "average cost", supplier, service };
  const name = `order from ${supplier} for ${serviceName(scenario, service)}`;
  const one = new Sum().add(isMade, -1);
  const goods = new Sum();
  for (const { variable, price } of buys.flatMap(({ byPrice }) => byPrice)) goods.add(variable, price);
  const bands = leastOrders(buys, context).map((least): OrderBand => {
    const isReached = builder.variable(tag, `${name} of ${least.toFixed(2)} and more`, 1, { integer: true });
    one.add(isReached, 1);
    goods.add(isReached, -least);
    return { least, isReached };
  });
  builder.row(tag, `${name}, one range`, one, { lower: 0, upper: 0 });
  builder.row(tag, `${name}, within its range`, goods, { lower: 0 });
  return bands;
}

/** From the least to the most that an order can come to. */
function leastOrders(buys: readonly BuyHandle[], { scenario, builder }: BuildContext): number[] {
  const [first] = buys;
  if (first === undefined) return [];
  const minimum = currency(supplierOf(first.item, scenario)?.minimum ?? NO_MONEY);
  const most = buys.reduce((sum, { byPrice }) => {
    const costs = byPrice.map(({ variable, price }) => price * builder.upperOf(variable));
    return sum + Math.max(0, ...costs);
  }, 0);
  const prices = buys.flatMap(({ byPrice }) => byPrice.map(({ price }) => price));
  const least = Math.max(minimum, Math.min(...prices));
  const all = allOrders(buys, builder.upperOf.bind(builder))?.filter((value) => value >= least - SAME_ORDER);
  if (all !== undefined && all.length <= MOST_BANDS) return all.length === 0 ? [least] : all;
  if (least === 0 || least >= most) return [least];
  const wider = (most / least) ** (1 / MOST_BANDS);
  return Array.from({ length: MOST_BANDS }, (_, index) => least * wider ** index);
}

/** Everything that an order can come to, least first; undefined where that is too much to list. */
function allOrders(buys: readonly BuyHandle[], upperOf: (variable: number) => number): number[] | undefined {
  let orders = [0];
  for (const { byPrice } of buys) {
    const costs = byPrice.flatMap(({ variable, price }) =>
      upperOf(variable) > MOST_ORDERS
        ? []
        : Array.from({ length: Math.floor(upperOf(variable)) + 1 }, (_, units) => price * units),
    );
    if (costs.length === 0) return undefined;
    orders = distinct(orders.flatMap((order) => costs.map((cost) => order + cost)));
    if (orders.length > MOST_ORDERS) return undefined;
  }
  return orders;
}

/** Beyond so many, orders are not listed. */
const MOST_ORDERS = 64;

function distinct(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, index) => index === 0 || value - (sorted[index - 1] ?? 0) > SAME_ORDER);
}
