import { Decimal, roundToInteger } from "../quantity/index.js";
import { type LotRows, lotsOf } from "./lots.js";
import { inProportion, type Reconciliation, shareOut, slackOf, sum } from "./reconciliation.js";
import { LOSS, type Row, WATER } from "./row.js";
import { words } from "./words.js";

/** In this order blanks are filled: dishes and steps first, what is kept, and last what is left over. */
const RANKS: readonly (readonly string[])[] = [["into dish", "worked"], ["kept"], ["left over"]];

/**
 * Where everything that came of a lot was weighed, but not all that went into it: the weights of the rest, told by
 * the difference. To be asked before the cuts are reckoned.
 */
export function inferFromUses(book: Reconciliation): void {
  for (const { part, ins, outs } of lotsOf(book.sheet.rows)) {
    if (outs.length === 0 || !outs.every((row) => book.isWeighed(row))) continue;
    const blanks = ins.filter((row) => !book.isWeighed(row));
    if (blanks.length === 0) continue;
    const went = sum(outs.map((row) => book.value(row)));
    const came = sum(ins.filter((row) => book.isWeighed(row)).map((row) => book.value(row)));
    const readings = [...ins, ...outs].filter((row) => book.isWeighed(row)).length;
    if (came - went > slackOf(readings, book.scenario.scaleStep)) {
      book.problem(outs, words.lotGap(part, came - went, book.said));
      continue;
    }
    const shares = blanks.map((row) => (row.planned === 0n ? row.share : row.planned));
    const alike = shares.every((share) => typeof share === "bigint") ? shares : blanks.map(() => 1n);
    const pieces = inProportion(went > came ? went - came : 0n, alike);
    blanks.forEach((row, index) => {
      book.known.set(row, pieces[index] ?? 0n);
    });
  }
}

/** Every lot, and the steps that take from it: what came in is what went out. To be called after the cuts. */
export function reconcileLots(book: Reconciliation): void {
  for (const row of book.rows("in the house", { measure: "weight" }))
    if (row.lot !== null) book.actual.set(row, book.value(row));
  for (const lot of lotsOf(book.sheet.rows)) {
    reconcileLot(lot, book);
    for (const row of lot.outs) if (row.what === "worked") reconcileStep(row, book);
  }
}

function reconcileLot({ part, ins, outs }: LotRows, book: Reconciliation): void {
  const available = sum(ins.map((row) => book.value(row)));
  const readings = [...ins, ...outs].filter((row) => book.isWeighed(row)).length;
  const shared = shareOut(
    available,
    outs.map((row) => ({
      row,
      given: book.given(row),
      expected: row.planned,
      rank: RANKS.findIndex((whats) => whats.includes(row.what)),
    })),
    slackOf(readings, book.scenario.scaleStep) + book.moved(ins),
  );
  if (shared.kind === "closed") for (const [row, value] of shared.values) book.actual.set(row, value);
  else {
    const written = [...outs, ...ins].filter((row) => book.isWeighed(row));
    const isReckoned = ins.some((row) => !book.isWeighed(row));
    book.problem(
      [...written, ...ins],
      isReckoned && shared.gap < 0n
        ? words.moreThanReckoned(part, -shared.gap, available, book.said)
        : words.lotGap(part, shared.gap, book.said),
    );
  }
}

/** What a step gave of what it took: blanks in the proportions planned, the loss and then the water giving way. */
function reconcileStep(worked: Row, book: Reconciliation): void {
  const gave = book
    .rows("worked gave", { service: worked.service, name: worked.name, way: worked.way })
    .filter(({ lot }) => JSON.stringify(lot) === JSON.stringify(worked.lot));
  const water = gave.find(({ part }) => part === WATER);
  const outs = gave.filter((row) => row !== water);
  const taken = book.value(worked);
  const expectedWater = water === undefined ? 0n : ofTaken(taken, water, worked);
  const wet = water === undefined ? 0n : (book.given(water) ?? expectedWater);
  const given = outs.filter((row) => book.given(row) !== null);
  const blanks = outs.filter((row) => book.given(row) === null);
  const rest = taken + wet - sum(given.map((row) => book.value(row)));
  for (const row of outs) book.actual.set(row, book.given(row) ?? 0n);
  if (water !== undefined) book.actual.set(water, wet);
  if (rest >= 0n && blanks.length > 0) {
    const pieces = inProportion(
      rest,
      blanks.map(({ share }) => share),
    );
    blanks.forEach((row, index) => {
      book.actual.set(row, pieces[index] ?? 0n);
    });
    return;
  }
  if (rest === 0n) return;
  if (water !== undefined && book.given(water) === null && wet - rest >= 0n) {
    book.actual.set(water, wet - rest);
    return;
  }
  const readings = [worked, ...gave].filter((row) => book.isWeighed(row));
  const slack = slackOf(readings.length, book.scenario.scaleStep) + book.moved([worked]);
  const taker = [...outs]
    .filter((row) => book.value(row) + rest >= 0n)
    .sort(
      (a, b) => Number(b.part === LOSS) - Number(a.part === LOSS) || (book.value(b) > book.value(a) ? 1 : -1),
    )[0];
  if ((rest < 0n ? -rest : rest) <= slack && taker !== undefined) {
    book.actual.set(taker, book.value(taker) + rest);
    return;
  }
  const written = [...gave, worked].filter((row) => book.isWeighed(row));
  book.problem([...written, worked], words.stepGap(worked, rest, book.said));
}

/** Water in the proportion planned to what is taken. */
function ofTaken(taken: bigint, water: Row, worked: Row): bigint {
  const [over, under] = [water.share, worked.share].map((share) => new Decimal(share.toString()));
  if (over === undefined || under === undefined || under.isZero()) return 0n;
  return roundToInteger(over.times(taken.toString()).div(under));
}
