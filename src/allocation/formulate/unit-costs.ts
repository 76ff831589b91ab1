import { type Item, priceAt, serviceName, supplierOf } from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import { heldUnitCosts } from "../costs.js";
import { currency, rate } from "../floats.js";
import { Sum } from "../model.js";
import type { BuildContext, BuyHandle, ChargeHandle } from "./context.js";

/**
 * What a unit of an item at most costs, with its share of the delivery, where of each of these sets of variables one
 * is 1; no more of a set ever are.
 */
export interface UnitCost {
  readonly perUnit: number;
  readonly where: readonly (readonly number[])[];
}

/** What a unit of an item can cost, by what is bought of it and what the orders come to that it is in. */
export function unitCostsOf(item: Item, bandsOf: OrderBands, context: BuildContext): UnitCost[] {
  const buys = context.handles.buys.filter((buy) => buy.item === item);
  // Of several deliveries with price breaks, the number bought in all does not say what was paid.
  const isByNumber = buys.length < 2 || buys.every(({ byPrice }) => byPrice.length === 1);
  const costs = isByNumber ? costsByNumber : costsByPrice;
  return costs(item, buys, (buy) => chargesOn(buy, bandsOf, context), context);
}

/** What a delivery is charged, of an order that comes to so much at least where the variables are 1. */
interface Charge {
  readonly charge: number;
  readonly least: number;
  readonly where: readonly (readonly number[])[];
}

const NO_CHARGE: Charge = { charge: 0, least: 1, where: [] };

type ChargesOf = (buy: BuyHandle) => readonly Charge[];

function chargesOn({ item, service }: BuyHandle, bandsOf: OrderBands, { handles }: BuildContext): Charge[] {
  const made = handles.charges.find((each) => each.supplier === item.supplier && each.service === service);
  if (made === undefined) return [];
  return bandsOf(made).map(({ least, isReached }) => ({ charge: made.charge, least, where: [[isReached]] }));
}

/** The same of an order that comes to so much at least in any case: ranges below that are one. */
function chargesFrom(least: number, charges: readonly Charge[]): Charge[] {
  const below = charges.filter((charge) => charge.least <= least);
  const [first] = below;
  if (first === undefined) return [...charges];
  const where = [below.flatMap((charge) => charge.where.flat())];
  return [{ ...first, least, where }, ...charges.filter((charge) => charge.least > least)];
}

/** Goods with what they bear of the charge: by cost, or where all of an order is free perhaps all of it. */
function charged(goods: number, { charge, least }: Charge): number {
  return least === 0 ? goods + charge : goods * (1 + charge / least);
}

/** Order units bought in all, from least to most, at one price; told by a variable where there are other numbers. */
interface NumberBought {
  readonly least: number;
  most: number;
  /** What a unit costs without any charge, which numbers in one range have alike. */
  readonly perUnit: number;
}

/** Numbers up to this are told apart; beyond, ranges of numbers that grow by a quarter. */
const NUMBERS_TOLD_APART = 24;
/** Costs of a unit that differ by less are one. */
const SAME_COST = 1e-9;

/** All of an item costs the average of what is bought, at the price for that number, and of what is on hand. */
function costsByNumber(
  item: Item,
  buys: readonly BuyHandle[],
  chargesOf: ChargesOf,
  { builder }: BuildContext,
): UnitCost[] {
  const upper = buys.reduce((sum, { variable }) => sum + builder.upperOf(variable), 0);
  const averageOf = averageCost(item, buys.length);
  const tag = { family: "average cost", item: item.name };
  // Of several deliveries, what is free may bear the charges of all.
  const ofFree = buys.reduce(
    (sum, buy) => sum + (chargesOf(buy).find(({ least }) => least === 0)?.charge ?? 0),
    0,
  );
  const charges = buys.flatMap((buy, index) => {
    const all = chargesOf(buy);
    if (buys.length === 1 || all.length === 0) return all;
    const isPart = builder.variable(tag, `any ${item.name} in delivery ${index + 1}`, 1, { integer: true });
    const only = new Sum().add(buy.variable, 1).add(isPart, -builder.upperOf(buy.variable));
    builder.row(tag, `any ${item.name} in delivery ${index + 1}, at most`, only, { upper: 0 });
    return all.map((charge) => ({
      ...charge,
      charge: charge.least === 0 ? ofFree : charge.charge,
      where: [...charge.where, [isPart]],
    }));
  });
  const numbers = numbersBought(item, { upper, isCharged: charges.length > 0 }, averageOf, buys.length);
  const one = new Sum();
  const fewest = new Sum();
  const most = new Sum();
  for (const { variable } of buys) {
    fewest.add(variable, 1);
    most.add(variable, 1);
  }
  const costs = numbers.flatMap((number): UnitCost[] => {
    const isBought: number[][] = [];
    if (numbers.length > 1) {
      const name = `${number.least} to ${number.most} of ${item.name} bought`;
      const isSo = builder.variable(tag, name, 1, { integer: true });
      one.add(isSo, 1);
      fewest.add(isSo, -number.least);
      most.add(isSo, -number.most);
      isBought.push([isSo]);
    }
    // Only where none may be bought may there be no charge.
    const own = ownGoods(item, Math.max(number.least, isHeld(item) ? 0 : 1));
    const borne = buys.length === 1 ? chargesFrom(own, charges) : charges;
    const possible = charges.length === 0 || number.least === 0 ? [NO_CHARGE, ...borne] : borne;
    return possible.map((charge) => ({
      perUnit: Math.max(averageOf(number.least, charge), averageOf(number.most, charge)),
      where: [...isBought, ...charge.where],
    }));
  });
  if (numbers.length > 1) {
    builder.row(tag, `a number of ${item.name} bought`, one, { lower: 1, upper: 1 });
    builder.row(tag, `at least that number of ${item.name}`, fewest, { lower: 0 });
    builder.row(tag, `at most that number of ${item.name}`, most, { upper: 0 });
  }
  return costs;
}

function isHeld({ onHand }: Item): boolean {
  return onHand.some(({ units }) => !units.isZero());
}

/** What so many order units of an item come to in one delivery. */
function ownGoods({ buying }: Item, bought: number): number {
  return buying === null ? 0 : currency(priceAt(buying, bought)) * bought;
}

type AverageCost = (bought: number, charge: Charge) => number;

/** What a unit costs where so many order units are bought; nothing where there is none. */
function averageCost({ buying, onHand, orderUnit }: Item, deliveries: number): AverageCost {
  const heldUnits = onHand.reduce((sum, { units }) => sum + rate(units), 0);
  const heldValue = onHand.reduce((sum, { value }) => sum + currency(value), 0);
  return (bought, charge) => {
    const units = heldUnits + rate(orderUnit.size) * bought;
    if (units === 0) return 0;
    const price = buying === null ? 0 : currency(deliveries > 1 ? buying.price : priceAt(buying, bought));
    const paid = bought === 0 ? 0 : charged(price * bought, charge);
    return (heldValue + paid) / units;
  };
}

function numbersBought(
  item: Item,
  { upper, isCharged }: { readonly upper: number; readonly isCharged: boolean },
  averageOf: AverageCost,
  deliveries: number,
): NumberBought[] {
  const breaks = deliveries > 1 ? [] : (item.buying?.breaks ?? []);
  const numbers: NumberBought[] = [];
  for (let least = isHeld(item) ? 0 : 1; least <= upper; ) {
    const next = breaks.find(({ from }) => from > least)?.from ?? upper + 1;
    const far = least < NUMBERS_TOLD_APART ? least : Math.floor(1.25 * least);
    const most = Math.min(upper, next - 1, far);
    // At one price, the average only rises or only falls with the number.
    const perUnit = Math.max(averageOf(least, NO_CHARGE), averageOf(most, NO_CHARGE));
    const before = numbers.at(-1);
    const isAlike = before !== undefined && Math.abs(before.perUnit - perUnit) < SAME_COST;
    // None bought is apart, as none is charged; and so is each number that bears a charge.
    if (isAlike && before.least > 0 && !isCharged) before.most = most;
    else numbers.push({ least, most, perUnit });
    least = most + 1;
  }
  const [first, ...more] = numbers;
  // Where nothing is on hand, nothing bought is nothing cut, at any cost.
  return first === undefined ? [] : [{ ...first, least: 0 }, ...more];
}

/** The dearest of the prices that are paid and of what is on hand, and no less than the least of all. */
function costsByPrice(
  item: Item,
  buys: readonly BuyHandle[],
  chargesOf: ChargesOf,
  { builder }: BuildContext,
): UnitCost[] {
  const tag = { family: "average cost", item: item.name };
  const paid = (variable: number, index: number): number => {
    const name = `any ${item.name} below a price break, delivery ${index + 1}`;
    const isPaid = builder.variable(tag, name, 1, { integer: true });
    const only = new Sum().add(variable, 1).add(isPaid, -builder.upperOf(variable));
    builder.row(tag, name, only, { upper: 0 });
    return isPaid;
  };
  const size = rate(item.orderUnit.size);
  const bought = buys.flatMap((buy, index) => {
    const charges = chargesOf(buy);
    return buy.byPrice.flatMap(({ variable, price, isReached }) => {
      const isPaid = isReached ?? paid(variable, index);
      return (charges.length === 0 ? [NO_CHARGE] : charges).map(
        (charge): UnitCost => ({
          perUnit: charged(price, charge) / size,
          where: [[isPaid], ...charge.where],
        }),
      );
    });
  });
  const held = heldUnitCosts(item).map((perUnit): UnitCost => ({ perUnit, where: [] }));
  const least = Math.min(...[...bought, ...held].map(({ perUnit }) => perUnit));
  return [{ perUnit: least, where: [] }, ...bought, ...held];
}

/** A range of what an order comes to, in currency units: no less than so much where the variable is 1. */
export interface OrderBand {
  readonly least: number;
  readonly isReached: number;
}

/** The ranges of a charged delivery's order, of which one is reached where the order is made. */
export type OrderBands = (charge: ChargeHandle) => readonly OrderBand[];

/** So many of the least orders are told apart. */
const ORDERS_TOLD_APART = 16;
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
    const units = Array.from(
      { length: Math.min(Math.floor(most), ORDERS_TOLD_APART) + 1 },
      (_, count) => count,
    );
    const all = orders.flatMap((order) => units.map((count) => order + price * count));
    orders = distinct(all).slice(0, ORDERS_TOLD_APART + 1);
  }
  return orders.slice(1);
}

function distinct(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, index) => index === 0 || value - (sorted[index - 1] ?? 0) > SAME_ORDER);
}
