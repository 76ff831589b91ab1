import type {
  LineSource,
  Part,
  RecipeLine,
  ScenarioFile,
  StapleLine,
  WrittenPrice,
} from "../kitchen/index.js";
import { Decimal, ONE, times, type Weight, ZERO } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import { type Resolving, unknownPart } from "./context.js";
import type { Parts, PartsInReach } from "./parts.js";
import { words } from "./wording/index.js";

type LineEntry = NonNullable<ScenarioFile["dishes"][string]["lines"]>[number];
type SourceEntry = { rate?: Decimal | undefined; share?: { least: Decimal; most: Decimal } | undefined };

interface Amount {
  readonly least: Weight;
  readonly most: Weight;
  readonly stated: "raw" | "cooked";
}

export function resolveLine(
  context: Resolving,
  entry: LineEntry,
  reach: PartsInReach,
  path: Path,
): RecipeLine | null {
  const place = [...path, "from"];
  const written = writtenSources(context, entry.from, path);
  const found = written.map((source) => resolveSource(context, source, reach));
  const sources = found.filter((source) => typeof source === "object");
  const allNamed = !found.includes("unknown") && written.length > 0;
  if (allNamed && sources.length === 0)
    context.at(place, words.lineOutOfReach(written.map(({ part }) => part)));
  else if (allNamed && !context.isLeftOut(place)) checkShares(context, sources, place);
  if (entry.amount === undefined && !context.isLeftOut([...path, "amount"]))
    context.atName(path, words.noAmount());
  const amount = amountOf(context, entry, sources, reach.parts, [...path, "amount"], allNamed);
  if (written.length === 0 && !context.isLeftOut(place)) context.at(place, words.noSources());
  if (amount === null || sources.length === 0) return null;
  return {
    name: entry.name ?? sources[0]?.part ?? "",
    ...amount,
    cookingYield: cookingYieldOf(context, entry, amount.stated, sources, reach.parts, path),
    from: sources,
  };
}

interface WrittenSource extends SourceEntry {
  readonly part: string;
  readonly place: Path;
}

function writtenSources(context: Resolving, from: LineEntry["from"], path: Path): WrittenSource[] {
  const place = [...path, "from"];
  if (typeof from === "string") return [{ part: from, place }];
  if (Array.isArray(from)) {
    return from.map((part, index) => ({ part, place: context.elementOf(place, index) }));
  }
  return Object.entries(from).map(([part, source]) => ({ part, place: [...place, part], ...source }));
}

/** The source; or that its part cannot be had here, which is no fault while others can; or that it is not known. */
function resolveSource(
  context: Resolving,
  { part: name, place, rate = ONE, share }: WrittenSource,
  { known, parts }: PartsInReach,
): LineSource | "out of reach" | "unknown" {
  const part = parts.get(name);
  if (part === undefined) {
    if (context.isUnsettled(name)) return "unknown";
    if (!known.has(name)) {
      context.atName(place, unknownPart(context, name, known, [...parts.keys()]));
      return "unknown";
    }
    if (share === undefined || share.least.isZero()) return "out of reach";
    context.atName(place, words.lineOutOfReach([name]));
    return "unknown";
  }
  if (part.class === "inedible") context.atName(place, words.inedibleInDish(name));
  if (rate.isZero()) {
    context.at([...place, "rate"], words.zeroRate(name));
    return "unknown";
  }
  return { part: name, rate, leastShare: share?.least ?? ZERO, mostShare: share?.most ?? ONE };
}

/** Least shares may not exceed the whole, and greatest shares must be able to make it. */
function checkShares(context: Resolving, sources: readonly LineSource[], place: Path): void {
  const least = sources.reduce((sum, { leastShare }) => sum.plus(leastShare), ZERO);
  const most = sources.reduce((sum, { mostShare }) => sum.plus(mostShare), ZERO);
  if (least.greaterThan(ONE)) context.atKey(place, words.sharesAbove(least));
  else if (most.lessThan(ONE)) context.atKey(place, words.sharesBelow(most));
}

function amountOf(
  context: Resolving,
  { amount }: LineEntry,
  sources: readonly LineSource[],
  parts: Parts,
  place: Path,
  allNamed: boolean,
): Amount | null {
  if (amount === undefined) return null;
  if (amount.kind === "weight") return { least: amount.least, most: amount.most, stated: amount.stated };
  const weights = new Set(sources.map(({ part }) => parts.get(part)?.pieceWeight ?? null));
  const [piece] = weights;
  if (weights.size === 1 && piece) {
    return { least: times(piece, amount.least), most: times(piece, amount.most), stated: "raw" };
  }
  if (allNamed && sources.length > 0) {
    const uncounted = sources.find(({ part }) => !parts.get(part)?.pieceWeight)?.part ?? null;
    context.at(place, words.noPieceWeight(uncounted));
  }
  return null;
}

function cookingYieldOf(
  context: Resolving,
  entry: LineEntry,
  stated: "raw" | "cooked",
  sources: readonly LineSource[],
  parts: Parts,
  path: Path,
): Decimal {
  const cooking = entry.cooking;
  if (stated === "raw") {
    if (cooking?.yield !== undefined) context.at([...path, "cooking", "yield"], words.yieldOnRaw());
    return ONE;
  }
  if (cooking?.yield !== undefined) {
    if (cooking.yield.isZero()) context.at([...path, "cooking", "yield"], words.zeroCookingYield());
    return cooking.yield;
  }
  const method = cooking?.method;
  const found = sources.map(({ part }) => tableYield(context, parts.get(part), part, method));
  const [first] = found;
  if (first !== undefined && found.every((fraction) => fraction?.equals(first))) return first;
  if (!context.isLeftOut([...path, "cooking"])) {
    context.at([...path, "amount"], words.noCookingYield(sources[0]?.part ?? "", method ?? null));
  }
  return ONE;
}

/** The tables' cooked weight over raw weight of a part, or of the item it is cut from, by the method stated. */
function tableYield(
  context: Resolving,
  part: Part | undefined,
  name: string,
  method: string | undefined,
): Decimal | undefined {
  const { cooking } = context.tables;
  const row = [name, part?.item].flatMap((food) =>
    cooking.filter((entry) => entry.food === food && entry.method === method),
  )[0];
  return row?.fraction;
}

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
