import type { ScenarioFile, StapleLine, WrittenPrice } from "../kitchen/index.js";
import { Decimal } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

type StapleUnit = "g" | "mL" | "each";
type StapleEntry = NonNullable<ScenarioFile["dishes"][string]["staples"]>[string];

export function resolveStaples(
  context: Resolving,
  entries: Record<string, StapleEntry>,
  path: Path,
): StapleLine[] {
  return Object.entries(entries).flatMap(([name, entry]) => {
    const staple = resolveStaple(context, name, entry, [...path, name]);
    return staple === null ? [] : [staple];
  });
}

function resolveStaple(context: Resolving, name: string, entry: StapleEntry, path: Path): StapleLine | null {
  if (Decimal.isDecimal(entry)) {
    return { name, costPerPortion: entry, amount: null, price: null, allergens: [] };
  }
  const allergens = entry.allergens ?? [];
  if (entry.cost !== undefined) {
    if (entry.amount !== undefined || entry.price !== undefined)
      context.atKey([...path, "cost"], words.stapleTwice(name));
    return { name, costPerPortion: entry.cost, amount: null, price: null, allergens };
  }
  if (entry.amount === undefined || entry.price === undefined) {
    if (!context.isLeftOut(path)) context.atKey(path, words.stapleHalf(name, entry.amount === undefined));
    return null;
  }
  const price =
    unitPrice(entry.price, entry.amount.unit) ??
    acrossMeasures(context, name, entry.price, entry.amount.unit);
  if (price === null) {
    const foods = context.tables.densities.flatMap(({ food, alsoCalled }) => [food, ...alsoCalled]);
    const meant = isWeightAndVolume(entry.price, entry.amount.unit) ? didYouMean(name, foods) : null;
    context.at([...path, "price"], words.stapleUnits(name, entry.amount.unit, meant));
    return null;
  }
  const priced = entry.amount.unit === "each" ? entry.amount.value : entry.amount.value.div(1000);
  return { name, costPerPortion: priced.times(price), amount: entry.amount, price, allergens };
}

/** The price of one kilogram, litre or piece, as the amount is measured; null where the price is for another measure. */
function unitPrice({ amount, per }: WrittenPrice, unit: StapleUnit): Decimal | null {
  if (unit === "g" && (per.kind === "weight" || per.kind === "pack of weight")) {
    return amount.times(1000).div(per.grams);
  }
  if (unit === "mL" && per.kind === "volume") return amount.times(1000).div(per.millilitres);
  if (unit === "each" && per.kind === "unit") return amount;
  if (unit === "each" && per.kind === "pack") return amount.div(per.count);
  return null;
}

/** The price as the amount is measured, where one is a weight, the other a volume, and the food's density is known. */
function acrossMeasures(
  context: Resolving,
  name: string,
  price: WrittenPrice,
  unit: StapleUnit,
): Decimal | null {
  const wanted = plain(name);
  const density = context.tables.densities.find(({ food, alsoCalled }) =>
    [food, ...alsoCalled].some((each) => plain(each) === wanted),
  )?.gramsPerMillilitre;
  if (density === undefined || !isWeightAndVolume(price, unit)) return null;
  const other = unitPrice(price, unit === "mL" ? "g" : "mL");
  if (other === null) return null;
  return unit === "mL" ? other.times(density) : other.div(density);
}

function isWeightAndVolume({ per }: WrittenPrice, unit: StapleUnit): boolean {
  return unit === "mL"
    ? per.kind === "weight" || per.kind === "pack of weight"
    : unit === "g" && per.kind === "volume";
}

function plain(name: string): string {
  return name.trim().replace(/\s+/g, " ").toLowerCase();
}
