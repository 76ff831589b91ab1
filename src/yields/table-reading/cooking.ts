import { type CsvColumns, type Problem, readCsv, type Source } from "../../reading/index.js";
import { RowCells, SeenOnce } from "../../table-files/index.js";
import type { CookingYield } from "../tables.js";

const COLUMNS: CsvColumns = {
  required: ["food", "method", "percent", "source", "basis"],
  optional: ["spread", "tests"],
};

/** Dried beans, grains and pasta come out at up to about three times their weight. */
const MOST_PERCENT = 400;

/** Reads cooking.csv: cooked weight in percent of raw weight. */
export function readCooking(source: Source, problems: Problem[]): CookingYield[] {
  const table = readCsv(source, COLUMNS);
  problems.push(...table.problems);
  const seen = new SeenOnce();
  return table.rows.flatMap((row): CookingYield[] => {
    const cells = new RowCells(row, problems);
    const food = cells.text("food");
    const method = cells.text("method");
    const fraction = cells.fraction("percent", MOST_PERCENT);
    const spread = cells.optionalFraction("spread");
    const tests = cells.optionalWhole("tests", 100_000);
    const provenance = cells.provenance();
    const isNew = seen.add(cells, "food", food, method);
    if (food === null || method === null || fraction === null || provenance === null || !isNew) return [];
    return [{ food, method, fraction, spread, tests, ...provenance }];
  });
}
