import { type Item, priceAt } from "../kitchen/index.js";
import { Decimal, roundToInteger } from "../quantity/index.js";
import { inProportion, type Outlet, type Reconciliation, shareOut, slackOf, sum } from "./reconciliation.js";
import { isWeightUnit, LOSS, ONE_COUNTED, type Row } from "./row.js";
import { words } from "./words.js";

/** Units, weights as purchased and costs of every item: what came in is what was cut, binned, kept or dried. */
export function reconcileItems(book: Reconciliation): void {
  for (const item of book.scenario.items) {
    countUnits(item, book);
    weighItem(item, book);
    const costs = book.rows("bought", { name: item.name, measure: "cost" });
    for (const cost of costs) costOf(cost, item, book);
    refusePaidForNothing(item, costs, book);
  }
}

const ENDS: readonly Row["what"][] = ["cut", "kept", "binned"];
const WEIGHED_ENDS: readonly Row["what"][] = [...ENDS, "storage loss"];

function ends(item: Item, measure: Row["measure"], book: Reconciliation, whats = ENDS): Row[] {
  return whats.flatMap((what) => book.rows(what, { name: item.name, lot: null, measure }));
}

/** Whole units: those blank are as planned; where that does not add up, a single blank takes the rest. */
function countUnits(item: Item, book: Reconciliation): void {
  const outs = ends(item, "count", book);
  const weighedEnds = ends(item, "weight", book);
  const ins = [
    ...book.rows("bought", { name: item.name, measure: "count" }),
    ...book.rows("in the house", { name: item.name, measure: "count" }),
  ];
  for (const row of [...ins, ...outs]) book.actual.set(row, book.given(row) ?? row.planned);
  if (outs.length < weighedEnds.length || ![...ins, ...outs].some((row) => book.isWeighed(row))) return;
  const units = (row: Row): bigint =>
    row.what === "bought"
      ? roundToInteger(item.orderUnit.size.times(book.value(row).toString()))
      : book.value(row);
  const short = sum(ins.map(units)) - sum(outs.map(units));
  if (short === 0n) return;
  const blanks = outs.filter((row) => !book.isWeighed(row));
  const [blank] = blanks;
  const taken = blank === undefined ? -1n : book.value(blank) + short;
  if (blank !== undefined && blanks.length === 1 && taken >= 0n && taken % ONE_COUNTED === 0n)
    book.actual.set(blank, taken);
  else {
    const written = [...outs, ...ins].filter((row) => book.isWeighed(row));
    book.problem(written, words.unitsDiffer(item, short));
  }
}

/** What an unweighed row would weigh: its units at their usual weight, or as planned. */
function expectedWeight(row: Row, item: Item, book: Reconciliation): bigint {
  const { what, service, name, way } = row;
  const count = book.rows(what, { service, name, way, lot: null, measure: "count" })[0];
  if (count === undefined || book.value(count) === count.planned) return row.planned;
  if (count.planned > 0n) return (book.value(count) * row.planned) / count.planned;
  const each = what === "bought" ? item.orderUnit.weight : item.unitWeight;
  return (book.value(count) * each) / ONE_COUNTED;
}

function weighItem(item: Item, book: Reconciliation): void {
  const ins = [
    ...book.rows("bought", { name: item.name, measure: "weight" }),
    ...book.rows("in the house", { name: item.name, lot: null, measure: "weight" }),
  ];
  const outs = ends(item, "weight", book, WEIGHED_ENDS).map(
    (row): Outlet => ({
      row,
      given: book.given(row) ?? wholeCut(row, book),
      expected: expectedWeight(row, item, book),
      rank: WEIGHED_ENDS.indexOf(row.what),
    }),
  );
  const blankIns = ins.filter((row) => book.given(row) === null);
  const givenIns = ins.filter((row) => book.given(row) !== null);
  for (const row of givenIns) book.actual.set(row, book.value(row));
  const came = sum(givenIns.map((row) => book.value(row)));
  if (blankIns.length > 0) {
    const went = sum(outs.map(({ given, expected }) => given ?? expected));
    for (const { row, given, expected } of outs) book.actual.set(row, given ?? expected);
    if (went < came) {
      book.problem([...givenIns, ...outs.map(({ row }) => row)], words.itemGap(item, came - went, book.said));
      return;
    }
    const pieces = inProportion(
      went - came,
      blankIns.map((row) => expectedWeight(row, item, book)),
    );
    blankIns.forEach((row, index) => {
      book.actual.set(row, pieces[index] ?? 0n);
    });
    return;
  }
  const weighings = ins.length + outs.filter(({ row }) => book.isWeighed(row)).length;
  closeItem(item, came, { ins, outs, slack: slackOf(weighings, book.scenario.scaleStep) }, book);
}

function closeItem(
  item: Item,
  came: bigint,
  { ins, outs, slack }: { ins: readonly Row[]; outs: readonly Outlet[]; slack: bigint },
  book: Reconciliation,
): void {
  const went = sum(outs.map(({ given }) => given ?? 0n));
  const isWeighedWhole = outs.every(({ given }) => given !== null);
  const off = came - went;
  const largest = [...ins].sort((a, b) => (book.value(b) > book.value(a) ? 1 : -1))[0];
  // The weights at cutting stand, as their parts were weighed against them: the weight that came in gives way.
  if (isWeighedWhole && off !== 0n && (off < 0n ? -off : off) <= slack && largest !== undefined) {
    book.actual.set(largest, book.value(largest) - off);
    for (const { row, given } of outs) book.actual.set(row, given ?? 0n);
    return;
  }
  const shared = shareOut(came, outs, isWeighedWhole ? 0n : slack);
  if (shared.kind === "closed") for (const [row, value] of shared.values) book.actual.set(row, value);
  else {
    for (const { row, given, expected } of outs) book.actual.set(row, given ?? expected);
    const written = [...outs.map(({ row }) => row), ...ins].filter((row) => book.isWeighed(row));
    book.problem(written, words.itemGap(item, shared.gap, book.said));
  }
}

/** A cut whose weight as purchased is blank and whose parts were all weighed weighed what they weigh. */
function wholeCut(row: Row, book: Reconciliation): bigint | null {
  if (row.what !== "cut") return null;
  const { service, name, way } = row;
  const gave = book.rows("cut gave", { service, name, way });
  const parts = gave.filter(({ part }) => part !== LOSS);
  if (parts.length === 0 || !parts.every((part) => book.isWeighed(part))) return null;
  return sum(gave.map((part) => book.given(part) ?? 0n));
}

/** A bill left blank is the price for what was bought; what is bought by weight costs by its weight. */
function costOf(row: Row, item: Item, book: Reconciliation): void {
  const given = book.given(row);
  const common = { service: row.service, name: row.name };
  const count = book.rows("bought", { ...common, measure: "count" })[0];
  const weight = book.rows("bought", { ...common, measure: "weight" })[0];
  const measured = count ?? (isWeightUnit(item.orderUnit.name) ? weight : undefined);
  const isChanged = measured !== undefined && book.value(measured) !== measured.planned;
  if (given !== null || !isChanged) {
    book.actual.set(row, given ?? row.planned);
    return;
  }
  const one = count === undefined ? item.orderUnit.weight : ONE_COUNTED;
  if (measured.planned === 0n && item.buying === null) {
    book.problem([measured, row], words.noPrice(item));
    return;
  }
  const units = new Decimal(book.value(measured).toString()).div(one.toString());
  const asPriced = units.times(item.buying === null ? 0 : priceAt(item.buying, units.toNumber()).toString());
  const asPlanned =
    measured.planned === 0n
      ? asPriced
      : units.times(row.planned.toString()).times(one.toString()).div(measured.planned.toString());
  // More than planned may come to a lower price; fewer cost what those planned did.
  const exact = item.buying?.breaks === undefined ? asPlanned : Decimal.min(asPlanned, asPriced);
  book.actual.set(row, roundToInteger(exact));
}

function refusePaidForNothing(item: Item, costs: readonly Row[], book: Reconciliation): void {
  const weights = [
    ...book.rows("bought", { name: item.name, measure: "weight" }),
    ...book.rows("in the house", { name: item.name, lot: null, measure: "weight" }),
  ];
  if (sum(costs.map((row) => book.value(row))) === 0n || sum(weights.map((row) => book.value(row))) !== 0n)
    return;
  book.problem([...weights, ...costs], words.paidForNothing(item));
}

/**
 * What every cut gave. Weighed part for part, it must close; with no part weighed, it gives what its weight as
 * purchased would by plan, but for parts told by what became of them.
 */
export function reconcileCuts(book: Reconciliation): void {
  for (const cut of book.rows("cut", { measure: "weight" })) reconcileCut(cut, book);
}

/** The rows of what a cut gave: its parts, and the loss. */
export function gaveOf(
  { service, name, way }: Row,
  book: Reconciliation,
): { parts: Row[]; loss: Row | null } {
  const gave = book.rows("cut gave", { service, name, way });
  return {
    parts: gave.filter(({ part }) => part !== LOSS),
    loss: gave.find(({ part }) => part === LOSS) ?? null,
  };
}

function reconcileCut(cut: Row, book: Reconciliation): void {
  const { parts, loss } = gaveOf(cut, book);
  const weighed = parts.filter((row) => book.isWeighed(row));
  if (weighed.length === 0) {
    if (parts.length > 0 && loss !== null && book.isWeighed(loss)) book.problem([loss], words.onlyLoss(cut));
    byPlan(cut, parts, loss, book);
  } else if (weighed.length < parts.length) {
    const blanks = parts.filter((row) => !book.isWeighed(row));
    book.problem(
      weighed,
      words.someBlank(
        cut,
        blanks.map((row) => ({ part: row.part, line: book.lineOf(row) })),
      ),
    );
    for (const row of [...parts, ...(loss === null ? [] : [loss])]) book.actual.set(row, book.value(row));
  } else weighedWhole(cut, parts, loss, book);
}

function weighedWhole(cut: Row, parts: readonly Row[], loss: Row | null, book: Reconciliation): void {
  const apWeight = book.value(cut);
  const lost = loss === null ? 0n : (book.given(loss) ?? 0n);
  const gap = apWeight - sum(parts.map((row) => book.value(row))) - lost;
  const isLossWeighed = loss !== null && book.isWeighed(loss);
  const weighings = parts.length + (book.isWeighed(cut) ? 1 : 0) + (isLossWeighed ? 1 : 0);
  const slack = slackOf(weighings, book.scenario.scaleStep);
  for (const row of parts) book.actual.set(row, book.value(row));
  if ((gap < 0n ? -gap : gap) > slack) {
    const line = loss === null ? null : book.lineOf(loss);
    book.problem([cut, ...parts], words.cutGap(cut, { gap, lost, slack }, line, book.said));
    return;
  }
  const rest = lost + gap;
  if (loss !== null) book.actual.set(loss, rest < 0n ? 0n : rest);
  const largest = [...parts].sort((a, b) => (book.value(b) > book.value(a) ? 1 : -1))[0];
  if (rest < 0n && largest !== undefined) book.actual.set(largest, book.value(largest) + rest);
}

function byPlan(cut: Row, parts: readonly Row[], loss: Row | null, book: Reconciliation): void {
  const known = parts.filter((row) => book.known.has(row));
  const open = [...parts.filter((row) => !book.known.has(row)), ...(loss === null ? [] : [loss])];
  const fixed = sum(known.map((row) => book.value(row)));
  const rest = book.value(cut) - fixed;
  for (const row of known) book.actual.set(row, book.value(row));
  if (rest < 0n) {
    book.problem(
      [cut, ...known],
      words.moreThanCut(
        cut,
        -rest,
        known.map(({ part }) => part),
        book.said,
      ),
    );
    for (const row of open) book.actual.set(row, 0n);
    return;
  }
  const pieces = inProportion(
    rest,
    open.map(({ share }) => share),
  );
  open.forEach((row, index) => {
    book.actual.set(row, pieces[index] ?? 0n);
  });
}
