import { milligrams, roundTogether, type Weight } from "../quantity/index.js";
import { lotsOf } from "./lots.js";
import { LOSS, type Row } from "./row.js";

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
