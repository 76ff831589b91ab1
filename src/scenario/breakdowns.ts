import type { Breakdown, PartClass, YieldAmount } from "../kitchen/index.js";
import { type Decimal, grams, milligrams, ONE, toGrams, type Weight, ZERO } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { TableBreakdown, TableItem } from "../yields/index.js";
import { STATED_SPREAD, yieldSpreadOf } from "../yields/index.js";
import type { ItemEntry, Resolving } from "./context.js";
import type { ItemUnit } from "./units.js";
import { words } from "./wording/index.js";

type OwnBreakdown = NonNullable<ItemEntry["breakdowns"]>[string];

/** What one breakdown, or one row of the tables, says of a part. */
export interface PartFact {
  readonly part: string;
  /** The item that the breakdown cuts. */
  readonly item: string;
  /** Where the scenario says it; null for the tables. */
  readonly place: Path | null;
  readonly class: PartClass | null;
  /** Undefined where nothing is said. */
  readonly keepsDays: number | undefined;
  readonly pieceWeight: Weight | null;
  /** Whether the breakdown may be used in this scenario. */
  readonly inUse: boolean;
}

/** The breakdowns of an item that may be used: the tables', replaced and added to by the scenario's own. */
export function breakdownsOf(
  context: Resolving,
  item: string,
  entry: ItemEntry,
  table: TableItem | null,
  unit: ItemUnit,
) {
  const path = ["items", item];
  const ownNames = context.namesWritten([...path, "breakdowns"]);
  const own = Object.entries(entry.breakdowns ?? {});
  const fromTable = (table?.breakdowns ?? []).filter(({ name }) => !ownNames.includes(name));
  const names = [...fromTable.map(({ name }) => name), ...ownNames];
  (entry.cut ?? []).forEach((name, index) => {
    if (names.includes(name)) return;
    context.at(
      context.elementOf([...path, "cut"], index),
      words.unknownBreakdown(item, name, didYouMean(name, names), names),
    );
  });
  const known = (entry.cut ?? []).filter((name) => names.includes(name));
  const inUse = (name: string) => entry.cut === undefined || known.includes(name);
  const tableFacts = (table?.breakdowns ?? []).flatMap((breakdown) =>
    factsOfTable(breakdown, item, unit, inUse(breakdown.name) && !ownNames.includes(breakdown.name)),
  );
  const ownRead = own.map(([name, stated]) => ({
    name,
    ...ownBreakdown(context, item, stated, unit, [...path, "breakdowns", name], inUse(name)),
  }));
  const unread = context.isLeftOut([...path, "breakdowns"]) || context.isLeftOut([...path, "cut"]);
  return {
    /** False where a breakdown, or the choice among them, has a problem. */
    settled: !unread && known.length === (entry.cut ?? []).length,
    breakdowns: [
      ...fromTable.filter(({ name }) => inUse(name)).map(breakdownOfTable),
      ...ownRead.filter(({ name }) => inUse(name)).map(({ breakdown, name }) => ({ name, ...breakdown })),
    ],
    facts: [...ownRead.flatMap(({ facts }) => facts), ...tableFacts],
  };
}

function breakdownOfTable({ name, parts, loss, minutes, how, ownTests }: TableBreakdown): Breakdown {
  const sources = [...new Set(parts.map(({ source }) => source))];
  return {
    name,
    yields: parts.map(({ part, fraction }) => ({ part, fraction })),
    loss,
    yieldSpread: yieldSpreadOf(parts),
    minutes,
    how,
    source: sources.join("; "),
    ...(ownTests === undefined ? {} : { ownTests }),
  };
}

function factsOfTable(breakdown: TableBreakdown, item: string, unit: ItemUnit, inUse: boolean): PartFact[] {
  return breakdown.parts.map((part) => ({
    part: part.part,
    item,
    place: null,
    class: part.class,
    keepsDays: part.keepsDays ?? undefined,
    pieceWeight:
      part.pieces === null ? null : pieceOf(part.fraction.times(toGrams(unit.weight)), part.pieces),
    inUse,
  }));
}

function ownBreakdown(
  context: Resolving,
  item: string,
  stated: OwnBreakdown,
  unit: ItemUnit,
  path: Path,
  inUse: boolean,
): { breakdown: Omit<Breakdown, "name">; facts: PartFact[] } {
  const parts = Object.entries(stated.parts).map(([name, amount]) => {
    const { weight, class: partClass = null } = "kind" in amount ? { weight: amount } : amount;
    return { name, amount: weight, class: partClass, place: [...path, "parts", name] };
  });
  const whole = wholeOf(parts, stated.loss, unit);
  const of = context.formOf(item);
  for (const { name, amount, place } of parts) {
    if (shareOf(amount, whole).isZero()) context.at(place, words.emptyPart(name));
  }
  if (!context.isLeftOut(path)) checkSum(context, item, parts, stated.loss, unit, path);
  checkPieces(context, stated, path);
  const facts = parts.map(({ name, amount, class: partClass, place }): PartFact => {
    const count = stated.pieces?.[name] ?? 0;
    const weight = amount.kind === "weight" ? amount.grams : amount.fraction.times(toGrams(unit.weight));
    return {
      part: `${of} ${name}`,
      item,
      place,
      class: partClass,
      keepsDays: undefined,
      pieceWeight: count === 0 ? null : pieceOf(weight, count),
      inUse,
    };
  });
  const breakdown = {
    yields: parts.map(({ name, amount }) => ({ part: `${of} ${name}`, fraction: shareOf(amount, whole) })),
    loss: stated.loss === undefined ? ZERO : shareOf(stated.loss, whole),
    yieldSpread: STATED_SPREAD,
    minutes: stated.minutes ?? null,
    how: stated.how ?? null,
    source: stated.source ?? "this scenario",
  };
  return { breakdown, facts };
}

interface StatedPart {
  readonly name: string;
  readonly amount: YieldAmount;
}

/** Exact grams that parts stated by weight are shares of: their own sum with the loss, which is the unit to the milligram. */
function wholeOf(parts: readonly StatedPart[], loss: YieldAmount | undefined, unit: ItemUnit): Decimal {
  const grams = weightOf([...parts.map(({ amount }) => amount), ...(loss === undefined ? [] : [loss])]);
  return grams.isZero() ? toGrams(unit.weight) : grams;
}

function checkSum(
  context: Resolving,
  item: string,
  parts: readonly StatedPart[],
  loss: YieldAmount | undefined,
  unit: ItemUnit,
  path: Path,
): void {
  const stated = [...parts.map(({ amount }) => amount), ...(loss === undefined ? [] : [loss])];
  const [first] = parts;
  if (first === undefined) {
    context.at([...path, "parts"], words.noParts(item));
  } else if (stated.some(({ kind }) => kind !== first.amount.kind)) {
    context.atKey(path, words.mixedYields());
  } else if (first.amount.kind === "weight") {
    const sum = grams(weightOf(stated));
    if (unit.settled && sum !== unit.weight) context.atKey(path, words.weightsOpen(unit, sum));
  } else {
    const sum = stated.reduce((acc, amount) => acc.plus(shareOf(amount, ONE)), ZERO);
    if (!sum.equals(ONE)) context.atKey(path, words.percentsOpen(sum));
  }
}

function checkPieces(context: Resolving, stated: OwnBreakdown, path: Path): void {
  const names = context.namesWritten([...path, "parts"]);
  for (const [name, count] of Object.entries(stated.pieces ?? {})) {
    const place = [...path, "pieces", name];
    if (!names.includes(name)) context.atKey(place, words.unknownPiece(name, didYouMean(name, names), names));
    else if (count === 0) context.at(place, words.noPieces(name));
  }
}

/** The weight of one of `count` pieces, rounded down to the milligram so that they never outweigh the part. */
function pieceOf(grams: Decimal, count: number): Weight {
  return milligrams(BigInt(grams.times(1000).div(count).floor().toFixed(0)));
}

function weightOf(amounts: readonly YieldAmount[]): Decimal {
  return amounts.reduce((sum, amount) => (amount.kind === "weight" ? sum.plus(amount.grams) : sum), ZERO);
}

/** An amount as a share of the whole, which is in grams. */
function shareOf(amount: YieldAmount, whole: Decimal): Decimal {
  return amount.kind === "fraction" ? amount.fraction : amount.grams.div(whole);
}
