import {
  type Decision,
  type LotOrigin,
  type Purchase,
  type Scenario,
  withDelivery,
} from "../kitchen/index.js";
import { Decimal, milligrams, splitByShares, tenThousandths } from "../quantity/index.js";
import type { Problem } from "../reading/index.js";
import { withRest } from "./lots.js";
import { reconcileCuts, reconcileItems } from "./reconcile-items.js";
import { inferFromUses, reconcileLots } from "./reconcile-lots.js";
import { Reconciliation, type Sheet, shareOut, sum } from "./reconciliation.js";
import { LOSS, ONE_COUNTED, type Row, WATER } from "./row.js";
import { lineName } from "./rows-of.js";
import { words } from "./words.js";

/** What every row came to, the decision that was carried out, and the scenario with what was really in the house. */
interface Reconciled {
  /** Those of the sheet, and what is left over beside. */
  readonly rows: readonly Row[];
  readonly actual: ReadonlyMap<Row, bigint>;
  readonly decision: Decision;
  readonly scenario: Scenario;
}

/**
 * Makes of a sheet what happened, to the milligram: it closes, as a plan does. Null, with every problem, where the
 * weighings do not. Deliveries cost what they were `planned` to, where anything of them came.
 */
export function reconcile(
  sheet: Sheet,
  scenario: Scenario,
  planned: readonly Purchase[],
): { reckoned: Reconciled | null; problems: Problem[] } {
  const book = new Reconciliation(withRest(sheet, scenario), scenario);
  reconcilePortions(book);
  inferFromUses(book);
  reconcileItems(book);
  reconcileCuts(book);
  reconcileLots(book);
  if (book.problems.length > 0) return { reckoned: null, problems: book.problems };
  const rows = book.sheet.rows.filter((row) => sheet.rows.includes(row) || book.value(row) !== 0n);
  const made = decisionMade(book);
  const decision = { ...made, purchases: withDelivery(made.purchases, scenario, planned) };
  const done = { rows, actual: book.actual, decision, scenario: asItWas(book) };
  return { reckoned: done, problems: [] };
}

/** The scenario with the weights that were really on hand. */
function asItWas(book: Reconciliation): Scenario {
  const { scenario } = book;
  return {
    ...scenario,
    items: scenario.items.map((item) => {
      const [row] = book.rows("in the house", { name: item.name, lot: null, measure: "weight" });
      if (row === undefined) return item;
      const weights = splitByShares(
        milligrams(book.value(row)),
        item.onHand.map(({ weight }) => weight),
      );
      return {
        ...item,
        onHand: item.onHand.map((held, at) => ({ ...held, weight: weights[at] ?? held.weight })),
      };
    }),
    partsOnHand: scenario.partsOnHand.map((held, index) => {
      const row = book.rows("in the house").find(({ lot }) => lot?.kind === "onHand" && lot.index === index);
      return row === undefined ? held : { ...held, weight: milligrams(book.value(row)) };
    }),
  };
}

function decisionMade(book: Reconciliation): Decision {
  const { scenario } = book;
  const weight = (row: Row) => milligrams(book.value(row));
  const counted = ({ what, service, name, way }: Row): number | null => {
    const [row] = book.rows(what, { service, name, way, measure: "count" });
    return row === undefined ? null : Number(book.value(row) / ONE_COUNTED);
  };
  const some = (what: Row["what"]) =>
    book.rows(what, { measure: "weight" }).filter((row) => book.value(row) !== 0n);
  const ended = (what: "binned" | "kept") =>
    some(what)
      .filter(({ lot }) => lot === null)
      .map((row) => ({ item: row.name, service: at(row), units: counted(row), weight: weight(row) }));
  const dried = some("storage loss").map((row) => ({ item: row.name, weight: weight(row) }));
  return {
    purchases: book.rows("bought", { measure: "weight" }).flatMap((row) => {
      const [cost] = book.rows("bought", { service: row.service, name: row.name, measure: "cost" });
      const paid = tenThousandths(cost === undefined ? 0n : book.value(cost));
      if (book.value(row) === 0n && paid === 0n) return [];
      return [
        {
          item: row.name,
          service: at(row),
          orderUnits: orderUnits(row, book),
          weight: weight(row),
          cost: paid,
        },
      ];
    }),
    cuts: some("cut").map((row) => {
      const gave = book.rows("cut gave", { service: row.service, name: row.name, way: row.way });
      return {
        item: row.name,
        breakdown: row.way,
        service: at(row),
        units: counted(row),
        weight: weight(row),
        ...partsAndLoss(gave, book),
      };
    }),
    binned: ended("binned"),
    keptItems: ended("kept"),
    ...(dried.length === 0 ? {} : { storageLosses: dried }),
    preps: book.rows("worked").flatMap((row) => {
      const gave = book
        .rows("worked gave", { service: row.service, name: row.name, way: row.way })
        .filter(({ lot }) => JSON.stringify(lot) === JSON.stringify(row.lot));
      if ([row, ...gave].every((each) => book.value(each) === 0n)) return [];
      const water = gave.find(({ part }) => part === WATER);
      return [
        {
          step: row.way,
          from: { part: row.name, origin: originOf(row) },
          service: at(row),
          weight: weight(row),
          water: water === undefined ? milligrams(0n) : weight(water),
          ...partsAndLoss(gave, book),
        },
      ];
    }),
    goings: some("into dish").map((row) => ({
      lot: { part: row.part, origin: originOf(row) },
      dish: row.name,
      service: at(row),
      line: lineNumber(row, scenario),
      weight: weight(row),
      pieces: null,
    })),
    cookings: book
      .rows("cooked")
      .filter((row) => book.value(row) !== 0n)
      .map((cooked) => ({
        dish: cooked.name,
        service: at(cooked),
        portions: portions(cooked, book),
        served: book
          .rows("eaten", { name: cooked.name })
          .filter(({ lot }) => lot?.kind === "cut" && lot.service === cooked.service)
          .filter((row) => book.value(row) !== 0n)
          .map((row) => ({ service: at(row), portions: portions(row, book) })),
        spare: book
          .rows("spare", { name: cooked.name, service: cooked.service })
          .filter((row) => book.value(row) !== 0n)
          .map((row) => ({ destination: row.way, portions: portions(row, book) })),
      })),
    sends: some("left over").map((row) => ({
      lot: { part: row.name, origin: originOf(row) },
      destination: row.way,
      weight: weight(row),
    })),
    kept: some("kept")
      .filter(({ lot }) => lot !== null)
      .map((row) => ({ lot: { part: row.name, origin: originOf(row) }, weight: weight(row), lastDay: null })),
  };
}

function at({ service }: Row): number {
  return service ?? 0;
}

function originOf({ lot }: Row): LotOrigin {
  return lot ?? { kind: "cut", service: 0 };
}

function portions(row: Row, book: Reconciliation): number {
  return Number(book.value(row) / ONE_COUNTED);
}

function partsAndLoss(gave: readonly Row[], book: Reconciliation) {
  const loss = gave.find(({ part }) => part === LOSS);
  return {
    parts: gave
      .filter(({ part }) => part !== LOSS && part !== WATER)
      .map((row) => ({ part: row.part, weight: milligrams(book.value(row)) })),
    loss: milligrams(loss === undefined ? 0n : book.value(loss)),
  };
}

/** Counted, or for what is bought by weight, its weight in order units. */
function orderUnits(row: Row, book: Reconciliation): number {
  const [count] = book.rows("bought", { service: row.service, name: row.name, measure: "count" });
  if (count !== undefined)
    return new Decimal(book.value(count).toString()).div(ONE_COUNTED.toString()).toNumber();
  const unit = book.scenario.items.find(({ name }) => name === row.name)?.orderUnit.weight ?? 1n;
  return new Decimal(book.value(row).toString()).div(unit.toString()).toDecimalPlaces(3).toNumber();
}

function lineNumber(row: Row, scenario: Scenario): number {
  const lines = scenario.dishes.find(({ name }) => name === row.name)?.lines ?? [];
  return lines.findIndex((_, index) => lineName(row.name, index, scenario) === row.way);
}

/** Portions of every cooking: those cooked were eaten, now or later, or over. */
function reconcilePortions(book: Reconciliation): void {
  for (const cooked of book.rows("cooked")) {
    const { name, service } = cooked;
    const count = book.value(cooked);
    book.actual.set(cooked, count);
    const outs = [
      ...book.rows("eaten", { name }).filter(({ lot }) => lot?.kind === "cut" && lot.service === service),
      ...book.rows("spare", { name, service }),
    ];
    const shared = shareOut(
      count / ONE_COUNTED,
      outs.map((row) => ({
        row,
        given: scaled(book.given(row)),
        expected: row.planned / ONE_COUNTED,
        rank: row.what === "eaten" ? 0 : 1,
      })),
      0n,
    );
    const gap = shared.kind === "closed" ? eatenUnplanned(shared.values, book) : shared.gap;
    if (shared.kind === "closed" && gap === 0n)
      for (const [row, value] of shared.values) book.actual.set(row, value * ONE_COUNTED);
    else
      book.problem(
        [...outs, cooked].filter((row) => book.isWeighed(row)),
        words.portionsDiffer(name, gap),
      );
    refuseUncooked(cooked, count, book);
  }
}

/** Portions beyond the plan that only a blank would have eaten: nobody has said so. */
function eatenUnplanned(values: ReadonlyMap<Row, bigint>, book: Reconciliation): bigint {
  return sum(
    [...values].map(([row, value]) => {
      const over = value - row.planned / ONE_COUNTED;
      return row.what === "eaten" && !book.isWeighed(row) && over > 0n ? over : 0n;
    }),
  );
}

function scaled(count: bigint | null): bigint | null {
  return count === null ? null : count / ONE_COUNTED;
}

function refuseUncooked(cooked: Row, count: bigint, book: Reconciliation): void {
  if (count !== 0n) return;
  const filled = book
    .rows("into dish", { name: cooked.name, service: cooked.service })
    .filter((row) => (book.given(row) ?? row.planned) !== 0n);
  if (filled.length > 0) book.problem([cooked, ...filled], words.filledNotCooked(cooked.name));
}
