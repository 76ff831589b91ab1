import {
  daysBetween,
  type ItemOnHand,
  type OrderUnit,
  type PriceBreak,
  type Service,
  type WrittenPrice,
  type WrittenPrices,
} from "../kitchen/index.js";
import {
  Decimal,
  grams,
  larger,
  type Money,
  minus,
  money,
  NO_MONEY,
  ONE,
  smaller,
  times,
  toCurrency,
  toGrams,
  toKilograms,
  type Weight,
} from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { TableItem } from "../yields/index.js";
import type { ItemEntry, Resolving } from "./context.js";
import { weightText } from "./wording/figures.js";
import { words } from "./wording/index.js";

/** One unit of an item: a head, a bird, an egg, or a kilogram of what is cut by weight. */
export interface ItemUnit {
  readonly measure: "whole" | "loose";
  readonly name: string;
  readonly weight: Weight;
  /** False where the weight could not be settled and a kilogram stands in: nothing is to be judged by it. */
  readonly settled: boolean;
}

/** What is ordered, and its price where one is stated. */
export interface Order {
  readonly unit: OrderUnit;
  readonly price: Money | null;
  /** Lower prices of more, fewest first. */
  readonly breaks: readonly PriceBreak[];
}

const KILOGRAM = grams("1000");

/** What many units come in: its name alone says neither how many it holds nor what one of them weighs. */
const PACKS = ["bag", "box", "carton", "case", "crate", "net", "pack", "sack", "tray"];

/** The unit an item is cut by; not settled, with a problem, where its weight is not known. */
export function unitOf(
  context: Resolving,
  name: string,
  entry: ItemEntry,
  table: TableItem | null | undefined,
): ItemUnit {
  const path = ["items", name];
  const per = entry.price?.per;
  const pricedUnit = per?.kind === "unit" && per.name !== "each" ? per.name : undefined;
  const held = entry.on_hand?.find(({ amount }) => amount.kind === "units")?.amount;
  const heldUnit = held?.kind === "units" && held.unitName !== "each" ? held.unitName : undefined;
  if (entry.unit_weight !== undefined) {
    const ofTable = table?.measure === "whole" ? table.unitName : undefined;
    const priced = pricedUnit !== undefined && PACKS.includes(pricedUnit) ? undefined : pricedUnit;
    const unitName = ofTable ?? priced ?? heldUnit;
    return { measure: "whole", name: unitName ?? "each", weight: entry.unit_weight, settled: true };
  }
  const unsettled: ItemUnit = {
    measure: "whole",
    name: table?.unitName ?? pricedUnit ?? heldUnit ?? "each",
    weight: KILOGRAM,
    settled: false,
  };
  if (table === undefined || context.isLeftOut([...path, "unit_weight"])) return unsettled;
  const heldByCount = held !== undefined && per === undefined && table?.measure !== "loose";
  const byCount = per?.kind === "unit" || per?.kind === "pack" || heldByCount;
  if (table?.measure === "whole") {
    return { measure: "whole", name: table.unitName, weight: table.unitWeight, settled: true };
  }
  if (byCount) {
    const place = entry.price === undefined ? path : [...path, "price"];
    if (pricedUnit !== undefined && PACKS.includes(pricedUnit)) {
      context.at(place, words.barePack(pricedUnit, entry.price?.amount ?? ONE));
    } else context.atKey(place, words.noUnitWeight(name, pricedUnit ?? heldUnit ?? "each"));
    return unsettled;
  }
  const byWeight = per !== undefined || (entry.on_hand ?? []).length > 0 || table !== null;
  if (byWeight || context.isLeftOut([...path, "price"])) {
    return { measure: "loose", name: "kg", weight: KILOGRAM, settled: true };
  }
  if (entry.buy === null) context.atKey(path, words.noUnitWeight(name, "each"));
  return unsettled;
}

/** What one order unit is. Problems are reported; where the price cannot be used, one unit stands in. */
export function orderOf(context: Resolving, name: string, entry: ItemEntry, unit: ItemUnit): Order {
  const path = ["items", name];
  const one: OrderUnit = { name: unit.name, size: ONE, weight: unit.weight };
  if (
    entry.order_in !== undefined &&
    unit.settled &&
    (unit.measure === "whole" || entry.price?.per.kind !== "weight")
  ) {
    context.at([...path, "order_in"], words.orderInNotLoose(name));
  }
  if (entry.price === undefined) {
    const unreadable = context.isLeftOut([...path, "price"]) || context.isLeftOut([...path, "buy"]);
    if (entry.buy !== null && !unreadable) context.atKey(path, words.noPrice(name, unit.name));
    return { unit: one, price: null, breaks: [] };
  }
  if (!unit.settled) return { unit: one, price: null, breaks: [] };
  const orderAt = (price: WrittenPrice): UnitOrder | null =>
    unit.measure === "whole"
      ? wholeOrder(context, name, price, unit, one, [...path, "price"])
      : looseOrder(context, name, price, entry.order_in, [...path, "price"]);
  const order = orderAt(entry.price);
  if (order === null) return { unit: one, price: null, breaks: [] };
  return { ...order, breaks: breaksOf(context, entry.price, order, orderAt, [...path, "price"]) };
}

interface UnitOrder {
  readonly unit: OrderUnit;
  readonly price: Money;
}

/** Each for the same order unit as the price for a few, and below the one before it. */
function breaksOf(
  context: Resolving,
  { breaks }: WrittenPrices,
  order: UnitOrder,
  orderAt: (price: WrittenPrice) => UnitOrder | null,
  path: Path,
): PriceBreak[] {
  let before = order.price;
  return breaks.flatMap((written) => {
    const lower = orderAt(written);
    if (lower === null) return [];
    if (lower.unit.name !== order.unit.name || lower.unit.weight !== order.unit.weight) {
      context.at(path, words.breakOfOtherUnit(written.from, lower.unit.name, order.unit.name));
      return [];
    }
    if (lower.price >= before)
      context.at(path, words.breakNotLower(written.from, toCurrency(lower.price), toCurrency(before)));
    before = lower.price;
    return [{ from: written.from, price: lower.price }];
  });
}

function wholeOrder(
  context: Resolving,
  name: string,
  { amount, per }: WrittenPrice,
  unit: ItemUnit,
  one: OrderUnit,
  path: Path,
): UnitOrder | null {
  if (per.kind === "pack") {
    const size = new Decimal(per.count);
    return { unit: { name: per.name, size, weight: times(unit.weight, per.count) }, price: money(amount) };
  }
  if (per.kind === "weight") {
    return { unit: one, price: money(amount.times(toGrams(unit.weight)).div(per.grams)) };
  }
  if (per.kind === "unit") {
    if (per.name === "each" || per.name === unit.name) return { unit: one, price: money(amount) };
    context.at(
      path,
      PACKS.includes(per.name)
        ? words.barePack(per.name, amount)
        : words.wrongUnit(name, per.name, unit.name, amount, didYouMean(per.name, [unit.name]) !== null),
    );
    return null;
  }
  if (per.kind === "pack of weight") {
    const count = per.grams.div(toGrams(unit.weight)).floor();
    context.at(path, words.packByWeight(per.name, unit, count, amount));
    return null;
  }
  context.at(path, words.itemByVolume(name));
  return null;
}

function looseOrder(
  context: Resolving,
  name: string,
  { amount, per }: WrittenPrice,
  orderIn: Weight | undefined,
  path: Path,
): UnitOrder | null {
  if (per.kind === "weight") {
    const pound = /^(lbs?|pounds?)$/i.test(per.name);
    const weight = orderIn ?? (pound ? grams("453.59237") : KILOGRAM);
    const label = orderIn === undefined ? (pound ? "lb" : "kg") : weightText(weight);
    const price = money(amount.times(toGrams(weight)).div(per.grams));
    return { unit: { name: label, size: toKilograms(weight), weight }, price };
  }
  if (per.kind === "pack of weight") {
    const weight = grams(per.grams);
    return { unit: { name: per.name, size: toKilograms(weight), weight }, price: money(amount) };
  }
  if (per.kind === "volume") context.at(path, words.itemByVolume(name));
  return null;
}

export function onHandOf(
  context: Resolving,
  services: readonly Service[],
  entry: ItemEntry,
  unit: ItemUnit,
  keeps: number | null,
  path: Path,
): ItemOnHand[] {
  return (entry.on_hand ?? []).flatMap((stock, index) => {
    const place = context.elementOf([...path, "on_hand"], index);
    const lastDay = lastDayOf(context, services, stock.use_by, keeps, place);
    if (!unit.settled) return [];
    const held = heldUnits(context, stock.amount, unit, [...place, "amount"]);
    if (held === null) return [];
    const value = stock.value === undefined ? NO_MONEY : money(stock.value);
    return [{ ...held, value, lastDay, ...leftTo(context, stock.destination, place) }];
  });
}

/** Days from the first service to a use-by date; null where none is needed. */
export function lastDayOf(
  context: Resolving,
  services: readonly Service[],
  useBy: string | undefined,
  keeps: number | null,
  place: Path,
): number | null {
  const [first] = services;
  if (useBy === undefined) {
    if (keeps !== null && !context.isLeftOut([...place, "use_by"])) context.atKey(place, words.noUseBy());
    return null;
  }
  if (first === undefined) return null;
  const day = daysBetween(first.date, useBy);
  if (day < 0) context.at([...place, "use_by"], words.useByPast(useBy, first));
  return day;
}

/** Where what is not used of stock goes, where that is stated: a destination of the scenario. */
export function leftTo(
  context: Resolving,
  destination: string | undefined,
  place: Path,
): { readonly destination?: string } {
  if (destination === undefined) return {};
  const known = context.namesWritten(["destinations"]);
  if (!known.includes(destination))
    context.at([...place, "destination"], words.unknownDestination(destination, known));
  return { destination };
}

function heldUnits(
  context: Resolving,
  amount: NonNullable<ItemEntry["on_hand"]>[number]["amount"],
  unit: ItemUnit,
  place: Path,
): { units: Decimal; weight: Weight } | null {
  if (amount.kind === "weight") {
    if (unit.measure === "loose") return { units: toKilograms(amount.weight), weight: amount.weight };
    const units = new Decimal(amount.weight.toString()).div(unit.weight.toString()).round();
    const weight = times(unit.weight, units.toNumber());
    // Pounds and ounces are rounded to the milligram: a unit at a time here, all at once in the weight held.
    const apart = minus(larger(weight, amount.weight), smaller(weight, amount.weight));
    if (!units.isZero() && units.greaterThanOrEqualTo(apart.toString())) return { units, weight };
    context.at(place, words.partOfUnit(weightText(amount.weight), unit, Decimal.max(1, units)));
    return null;
  }
  if (unit.measure === "loose") {
    context.at(place, words.looseOnHand());
    return null;
  }
  if (amount.unitName !== "each" && amount.unitName !== unit.name) {
    context.at(place, words.wrongHeldUnit(amount.unitName, unit.name, amount.units));
    return null;
  }
  if (!amount.units.isInteger()) {
    context.at(
      place,
      words.partOfUnit(`${amount.units} ${unit.name}`, unit, Decimal.max(1, amount.units.floor())),
    );
    return null;
  }
  return { units: amount.units, weight: times(unit.weight, amount.units.toNumber()) };
}
