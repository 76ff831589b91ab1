import { serviceName, supplierOf } from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import { Sum } from "../builder.js";
import { currency } from "../floats.js";
import type { BuildContext, BuyHandle, ChargeHandle } from "./context.js";

/** A range of what an order comes to, in currency units: no less than so much where the variable is 1. */
export interface OrderBand {
  readonly least: number;
  readonly isReached: number;
}

/** The ranges of a charged delivery's order, of which one is reached where the order is made. */
export type OrderBands = (charge: ChargeHandle) => readonly OrderBand[];

/** So many of the least orders are told apart. */
const TOLD_APART = 16;
/** Beyond them there are so many ranges, each as much wider than the one before. */
const WIDER_BANDS = 40;
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
    const isReached = builder.variable(tag, `${name} of ${least} and more`, 1, { integer: true });
    one.add(isReached, 1);
    goods.add(isReached, -least);
    return { least, isReached };
  });
  builder.row(tag, `${name}, one range`, one, { lower: 0, upper: 0 });
  builder.row(tag, `${name}, within its range`, goods, { lower: 0 });
  return bands;
}

/** From the least to the most that an order can come to; nothing where all of it is free. */
function leastOrders(buys: readonly BuyHandle[], { scenario, builder }: BuildContext): number[] {
  const [first] = buys;
  if (first === undefined) return [];
  const minimum = currency(supplierOf(first.item, scenario)?.minimum ?? NO_MONEY);
  const offers = buys.flatMap(({ byPrice }) =>
    byPrice.flatMap(({ variable, price }) => {
      const most = builder.upperOf(variable);
      return price > 0 && most >= 1 ? [{ price, most }] : [];
    }),
  );
  const most = offers.reduce((sum, offer) => sum + offer.price * offer.most, 0);
  if (most <= minimum + SAME_ORDER) return [minimum];
  // What is free alone is an order too, of nothing.
  const free = buys.some(({ byPrice }) => byPrice.some(({ price }) => price === 0)) ? [0] : [];
  const told = [...free, ...smallestOrders(offers)].filter((order) => order >= minimum - SAME_ORDER);
  const least = told.length === 0 ? [minimum] : told;
  const from = least.at(-1) ?? minimum;
  if (from >= most - SAME_ORDER) return least;
  const wider = (most / from) ** (1 / WIDER_BANDS);
  return [...least, ...Array.from({ length: WIDER_BANDS - 1 }, (_, index) => from * wider ** (index + 1))];
}

interface Offer {
  readonly price: number;
  readonly most: number;
}

/** The least that an order of these can come to, as many as are told apart, least first. */
function smallestOrders(offers: readonly Offer[]): number[] {
  let orders = [0];
  for (const { price, most } of offers) {
    const units = Array.from({ length: Math.min(Math.floor(most), TOLD_APART) + 1 }, (_, count) => count);
    const all = orders.flatMap((order) => units.map((count) => order + price * count));
    orders = distinct(all).slice(0, TOLD_APART + 1);
  }
  return orders.slice(1);
}

function distinct(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, index) => index === 0 || value - (sorted[index - 1] ?? 0) > SAME_ORDER);
}
