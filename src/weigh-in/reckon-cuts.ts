import { inProportion, slackOf } from "./balance.js";
import { type Book, sum } from "./book.js";
import { LOSS, type Row } from "./row.js";
import { words } from "./words.js";

/**
 * What every cut gave. Weighed part for part, it must close; with no part weighed, it gives what its weight as
 * purchased would by plan, but for parts told by what became of them.
 */
export function reckonCuts(book: Book): void {
  for (const cut of book.rows("cut", { measure: "weight" })) reckonCut(cut, book);
}

/** The rows of what a cut gave: its parts, and the loss. */
export function gaveOf({ service, name, way }: Row, book: Book): { parts: Row[]; loss: Row | null } {
  const gave = book.rows("cut gave", { service, name, way });
  return {
    parts: gave.filter(({ part }) => part !== LOSS),
    loss: gave.find(({ part }) => part === LOSS) ?? null,
  };
}

function reckonCut(cut: Row, book: Book): void {
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

function weighedWhole(cut: Row, parts: readonly Row[], loss: Row | null, book: Book): void {
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

function byPlan(cut: Row, parts: readonly Row[], loss: Row | null, book: Book): void {
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
