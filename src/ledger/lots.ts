import { type Decision, type Lot, lotKey, lotName, sourcesFirst } from "../kitchen/index.js";
import { NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";
import type { Directory } from "./directory.js";
import { LedgerError, mustClose } from "./errors.js";

/** One lot: what came in and where every gram of it goes. */
export interface LotBook extends Lot {
  readonly name: string;
  readonly received: Weight;
  readonly waysOut: readonly WayOut[];
}

/** One entry of the decision's goings, preps, sends or kept parts. */
interface WayOut {
  readonly list: "goings" | "preps" | "sends" | "kept";
  readonly index: number;
  readonly weight: Weight;
  /** Whether anyone has the use of it: everything but what is wasted or not for eating. */
  readonly used: boolean;
}

export interface LotBooks {
  /** Sources before what steps make of them. */
  readonly inOrder: readonly LotBook[];
  of(lot: Lot): LotBook;
}

type OpenBook = { -readonly [K in keyof LotBook]: LotBook[K] } & { waysOut: WayOut[] };

/** Opens a book for every lot of the decision. A lot that does not close is a LedgerError. */
export function keepLots(decision: Decision, directory: Directory): LotBooks {
  const books = new Map<string, OpenBook>();
  const open = (lot: Lot): OpenBook => {
    const key = lotKey(lot);
    const existing = books.get(key);
    if (existing !== undefined) return existing;
    const part = directory.part(lot.part).name;
    const name = lotName(directory.scenario, lot);
    const book = { name, part, origin: lot.origin, received: NO_WEIGHT, waysOut: [] };
    books.set(key, book);
    return book;
  };
  const receive = (lot: Lot, weight: Weight): void => {
    const book = open(lot);
    book.received = plus(book.received, weight);
  };
  for (const cut of decision.cuts) {
    for (const { part, weight } of cut.parts)
      receive({ part, origin: { kind: "cut", service: cut.service } }, weight);
  }
  directory.scenario.partsOnHand.forEach(({ part, weight }, index) => {
    receive({ part, origin: { kind: "onHand", index } }, weight);
  });
  for (const { from, parts } of decision.preps) {
    for (const { part, weight } of parts) receive({ part, origin: from.origin }, weight);
  }
  const leave = (list: WayOut["list"], index: number, lot: Lot, weight: Weight, used: boolean): void => {
    open(lot).waysOut.push({ list, index, weight, used });
  };
  decision.goings.forEach(({ lot, weight }, index) => {
    leave("goings", index, lot, weight, true);
  });
  decision.preps.forEach(({ from, weight }, index) => {
    leave("preps", index, from, weight, true);
  });
  decision.sends.forEach(({ lot, weight, destination }, index) => {
    const eaten =
      directory.classOf(lot.part) === "food" && directory.destination(destination).end === "given away";
    leave("sends", index, lot, weight, eaten);
  });
  decision.kept.forEach(({ lot, weight }, index) => {
    leave("kept", index, lot, weight, true);
  });
  for (const { name, received, waysOut } of books.values())
    mustClose(name, received, total(waysOut.map(({ weight }) => weight)));
  return {
    inOrder: afterTheirSources(books, decision),
    of: open,
  };
}

/** Books of what steps make after those of what they are made from. */
function afterTheirSources(books: ReadonlyMap<string, LotBook>, { preps }: Decision): LotBook[] {
  const sources = new Map<string, LotBook[]>();
  for (const { from, parts } of preps) {
    for (const { part } of parts) {
      const made = lotKey({ part, origin: from.origin });
      const source = books.get(lotKey(from));
      sources.set(made, [...(sources.get(made) ?? []), ...(source === undefined ? [] : [source])]);
    }
  }
  return sourcesFirst(
    books.values(),
    (book) => sources.get(lotKey(book)) ?? [],
    ({ name }) => new LedgerError(`steps run in a circle through ${name}`),
  );
}
