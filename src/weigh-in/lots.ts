import { type Lot, lotKey, type Scenario, sourcesFirst } from "../kitchen/index.js";
import { binFor } from "../ledger/index.js";
import { milligrams, roundTogether, type Weight } from "../quantity/index.js";
import type { Sheet } from "./reconciliation.js";
import { aRow, LOSS, type Row, WATER } from "./row.js";

/** A part as one lot: every row that fills it and every row that empties it. */
export interface LotRows extends Lot {
  readonly ins: readonly Row[];
  readonly outs: readonly Row[];
}

/** The lots of a sheet, each after those it is made of. */
export function lotsOf(rows: readonly Row[]): LotRows[] {
  const lots = new Map<string, Lot & { ins: Row[]; outs: Row[] }>();
  const open = (lot: Lot) => {
    const key = lotKey(lot);
    const known = lots.get(key) ?? { ...lot, ins: [], outs: [] };
    lots.set(key, known);
    return known;
  };
  for (const row of rows) {
    const filled = filledBy(row);
    if (filled !== null) open(filled).ins.push(row);
    const emptied = emptiedBy(row);
    if (emptied !== null) open(emptied).outs.push(row);
  }
  const sourcesOf = ({ origin, ins }: LotRows): LotRows[] =>
    ins.flatMap(({ what, name }) =>
      what === "worked gave" ? (lots.get(lotKey({ part: name, origin })) ?? []) : [],
    );
  const circle = ({ part }: LotRows) => new RangeError(`steps run in a circle through ${part}`);
  return sourcesFirst<LotRows>(lots.values(), sourcesOf, circle);
}

function filledBy({ what, name, part, lot, service }: Row): Lot | null {
  if (what === "cut gave" && part !== LOSS && service !== null)
    return { part, origin: { kind: "cut", service } };
  if (lot === null) return null;
  if (what === "worked gave" && part !== LOSS && part !== WATER) return { part, origin: lot };
  return what === "in the house" ? { part: name, origin: lot } : null;
}

function emptiedBy({ what, name, part, lot }: Row): Lot | null {
  if (lot === null) return null;
  if (what === "into dish") return { part, origin: lot };
  return what === "worked" || what === "left over" || what === "kept" ? { part: name, origin: lot } : null;
}

/**
 * The sheet with a row `left over` for every part that was to go into dishes without rest, where one of these is
 * blank: a dish is not said to have taken what nobody put into it.
 */
export function withRest(sheet: Sheet, scenario: Scenario): Sheet {
  const rests = lotsOf(sheet.rows).flatMap(({ part, origin, outs }): Row[] => {
    const isForDishes = outs.every(({ what }) => what === "into dish");
    if (!isForDishes || outs.every((row) => sheet.readings.has(row))) return [];
    const kind = scenario.parts.find(({ name }) => name === part)?.class ?? "food";
    return [aRow({ what: "left over", name: part, way: binFor(kind, scenario).name, lot: origin })];
  });
  return { ...sheet, rows: [...sheet.rows, ...rests] };
}

/**
 * The rows that someone weighs, for paper. Left to the file are those planned as nothing on this scale, what leaves a
 * step as steam and drip, and the only way out of what is weighed when it is cut or worked: the others tell them.
 */
export function rowsToPrint(rows: readonly Row[], scaleStep: Weight): Row[] {
  const onlyWay = new Set(lotsOf(rows).flatMap(({ outs }) => (outs.length === 1 ? outs : [])));
  return rows.filter((row) => {
    const { what, part, measure, planned } = row;
    const isSeen = measure !== "weight" || roundTogether([milligrams(planned)], scaleStep)[0] !== 0n;
    const isTold = (what === "left over" && onlyWay.has(row)) || (what === "worked gave" && part === LOSS);
    return isSeen && !isTold;
  });
}
