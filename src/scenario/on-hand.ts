import { daysBetween, type ItemOnHand, type Service } from "../kitchen/index.js";
import {
  Decimal,
  larger,
  minus,
  money,
  NO_MONEY,
  smaller,
  times,
  toKilograms,
  type Weight,
} from "../quantity/index.js";
import type { Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import type { ItemUnit } from "./order-unit.js";
import type { ItemEntry } from "./table-match.js";
import { weightText } from "./wording/figures.js";
import { words } from "./wording/index.js";

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
