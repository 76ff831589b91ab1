import { shareOut } from "./balance.js";
import { type Book, sum } from "./book.js";
import { ONE_COUNTED, type Row } from "./row.js";
import { words } from "./words.js";

/** Portions of every cooking: those cooked were eaten, now or later, or over. */
export function reckonPortions(book: Book): void {
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
function eatenUnplanned(values: ReadonlyMap<Row, bigint>, book: Book): bigint {
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

function refuseUncooked(cooked: Row, count: bigint, book: Book): void {
  if (count !== 0n) return;
  const filled = book
    .rows("into dish", { name: cooked.name, service: cooked.service })
    .filter((row) => (book.given(row) ?? row.planned) !== 0n);
  if (filled.length > 0) book.problem([cooked, ...filled], words.filledNotCooked(cooked.name));
}
