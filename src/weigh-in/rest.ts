import type { Scenario } from "../kitchen/index.js";
import { binFor } from "../ledger/index.js";
import type { Sheet } from "./book.js";
import { lotsOf } from "./lots.js";
import { aRow, type Row } from "./row.js";

/**
 * The sheet with a row `left over` for every part that was to go into dishes without rest, where one of these is
 * blank: a dish is not said to have taken what nobody put into it.
 */
export function withRest(sheet: Sheet, scenario: Scenario): Sheet {
  const rests = lotsOf(sheet.rows).flatMap(({ part, origin, outs }): Row[] => {
    const isForDishes = outs.every(({ what }) => what === "into dish");
    if (!isForDishes || outs.every((row) => sheet.readings.has(row))) return [];
    const kind = scenario.parts.find(({ name }) => name === part)?.class ?? "food";
    return [aRow({ what: "left over", name: part, way: binFor(kind, scenario).name, lot: origin })];
  });
  return { ...sheet, rows: [...sheet.rows, ...rests] };
}
