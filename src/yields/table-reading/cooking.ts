import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { rowsOf, SeenOnce } from "../../table-files/index.js";
import type { CookingYield } from "../tables.js";

const COLUMNS: CsvColumns = {
  required: ["food", "method", "percent", "source", "basis"],
  optional: ["spread", "tests"],
};

/** Dried beans, grains and pasta come out at up to about three times their weight. */
const MOST_PERCENT = 400;

/** Reads cooking.csv: cooked weight in percent of raw weight. */
export function readCooking(source: Source | undefined, problems: Problem[]): CookingYield[] {
  const seen = new SeenOnce();
  return rowsOf(source, COLUMNS, problems).flatMap((cells): CookingYield[] => {
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
