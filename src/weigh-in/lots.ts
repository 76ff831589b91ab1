import type { LotOrigin } from "../kitchen/index.js";
import { LOSS, lotKey, type Row, WATER } from "./row.js";

/** A part as one lot: every row that fills it and every row that empties it. */
export interface LotRows {
  readonly part: string;
  readonly origin: LotOrigin;
  readonly ins: readonly Row[];
  readonly outs: readonly Row[];
}

/** The lots of a sheet, each after those it is made of. */
export function lotsOf(rows: readonly Row[]): LotRows[] {
  const lots = new Map<string, { part: string; origin: LotOrigin; ins: Row[]; outs: Row[] }>();
  const open = (part: string, origin: LotOrigin) => {
    const key = keyOf(part, origin);
    const lot = lots.get(key) ?? { part, origin, ins: [], outs: [] };
    lots.set(key, lot);
    return lot;
  };
  for (const row of rows) {
    const filled = filledBy(row);
    if (filled !== null) open(filled.part, filled.origin).ins.push(row);
    const emptied = emptiedBy(row);
    if (emptied !== null) open(emptied.part, emptied.origin).outs.push(row);
  }
  return sourcesFirst([...lots.values()]);
}

function keyOf(part: string, origin: LotOrigin): string {
  return `${part}\n${lotKey(origin)}`;
}

function filledBy({ what, name, part, lot, service }: Row): { part: string; origin: LotOrigin } | null {
  if (what === "cut gave" && part !== LOSS && service !== null)
    return { part, origin: { kind: "cut", service } };
  if (lot === null) return null;
  if (what === "worked gave" && part !== LOSS && part !== WATER) return { part, origin: lot };
  return what === "in the house" ? { part: name, origin: lot } : null;
}

function emptiedBy({ what, name, part, lot }: Row): { part: string; origin: LotOrigin } | null {
  if (lot === null) return null;
  if (what === "into dish") return { part, origin: lot };
  return what === "worked" || what === "left over" || what === "kept" ? { part: name, origin: lot } : null;
}

/** Steps lead from lot to lot and never in a circle. */
function sourcesFirst(lots: readonly LotRows[]): LotRows[] {
  const placed = new Set<LotRows>();
  const place = (lot: LotRows): void => {
    if (placed.has(lot)) return;
    for (const { what, name } of lot.ins) {
      if (what !== "worked gave") continue;
      const source = lots.find((each) => each.part === name && lotKey(each.origin) === lotKey(lot.origin));
      if (source !== undefined) place(source);
    }
    placed.add(lot);
  };
  for (const lot of lots) place(lot);
  return [...placed];
}
