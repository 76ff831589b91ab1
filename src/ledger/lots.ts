import type { Decision, Lot, LotOrigin } from "../kitchen/index.js";
import { NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";
import type { Directory } from "./directory.js";
import { LedgerError, mustClose } from "./errors.js";

/** One lot: what came in and where every gram of it goes. */
export interface LotBook {
  readonly name: string;
  readonly part: string;
  readonly origin: LotOrigin;
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
  of(part: string, origin: LotOrigin): LotBook;
}

type OpenBook = { -readonly [K in keyof LotBook]: LotBook[K] } & { waysOut: WayOut[] };

/** Opens a book for every lot of the decision. A lot that does not close is a LedgerError. */
export function keepLots(decision: Decision, directory: Directory): LotBooks {
  const books = new Map<string, OpenBook>();
  const open = (part: string, origin: LotOrigin): OpenBook => {
    const name = lotName(part, origin, directory);
    const existing = books.get(name);
    if (existing !== undefined) return existing;
    const book = { name, part, origin, received: NO_WEIGHT, waysOut: [] };
    books.set(name, book);
    return book;
  };
  const receive = (part: string, origin: LotOrigin, weight: Weight): void => {
    const book = open(part, origin);
    book.received = plus(book.received, weight);
  };
  for (const cut of decision.cuts) {
    for (const { part, weight } of cut.parts) receive(part, { kind: "cut", service: cut.service }, weight);
  }
  directory.scenario.partsOnHand.forEach(({ part, weight }, index) => {
    receive(part, { kind: "onHand", index }, weight);
  });
  for (const { from, parts } of decision.preps) {
    for (const { part, weight } of parts) receive(part, from.origin, weight);
  }
  const leave = (list: WayOut["list"], index: number, lot: Lot, weight: Weight, used: boolean): void => {
    open(lot.part, lot.origin).waysOut.push({ list, index, weight, used });
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
    inOrder: sourcesFirst([...books.values()], decision, directory),
    of: open,
  };
}

function lotName(part: string, origin: LotOrigin, directory: Directory): string {
  const { name } = directory.part(part);
  if (origin.kind === "cut") return `${name}, cut for ${directory.serviceName(origin.service)}`;
  return `${name}, from stock on hand ${origin.index + 1}`;
}

function sourcesFirst(books: readonly LotBook[], decision: Decision, directory: Directory): LotBook[] {
  const byName = new Map(books.map((book) => [book.name, book]));
  const ordered: LotBook[] = [];
  const state = new Map<string, "open" | "placed">();
  const sources = new Map<string, string[]>();
  for (const { from, parts } of decision.preps) {
    for (const { part } of parts) {
      const made = lotName(part, from.origin, directory);
      sources.set(made, [...(sources.get(made) ?? []), lotName(from.part, from.origin, directory)]);
    }
  }
  const place = (book: LotBook): void => {
    if (state.get(book.name) === "placed") return;
    if (state.get(book.name) === "open") throw new LedgerError(`steps run in a circle through ${book.name}`);
    state.set(book.name, "open");
    for (const name of sources.get(book.name) ?? []) {
      const source = byName.get(name);
      if (source !== undefined) place(source);
    }
    state.set(book.name, "placed");
    ordered.push(book);
  };
  for (const book of books) place(book);
  return ordered;
}
