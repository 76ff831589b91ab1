import { type Lot, lotKey, sourcesFirst } from "../kitchen/index.js";
import { LOSS, type Row, WATER } from "./row.js";

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
