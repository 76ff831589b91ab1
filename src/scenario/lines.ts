import type { LineSource, Part, RecipeLine, ScenarioFile } from "../kitchen/index.js";
import { type Decimal, ONE, times, type Weight, ZERO } from "../quantity/index.js";
import type { Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { unknownPart } from "./part-names.js";
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
