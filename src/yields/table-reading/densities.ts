import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { rowsOf, SeenOnce } from "../../table-files/index.js";
import type { Density } from "../tables.js";

const COLUMNS: CsvColumns = { required: ["food", "g_per_mL", "source", "basis"], optional: ["also_called"] };

/** The heaviest that kitchens measure in spoons, honey and syrups, weigh about 1.45 g a millilitre. */
const MOST_GRAMS = 2;

/** Reads densities.csv: what a millilitre of a food weighs. No two foods may go by the same name. */
export function readDensities(source: Source | undefined, problems: Problem[]): Density[] {
  const seen = new SeenOnce();
  return rowsOf(source, COLUMNS, problems).flatMap((cells): Density[] => {
    const food = cells.text("food");
    const alsoCalled = cells.names("also_called");
    const gramsPerMillilitre = cells.number("g_per_mL", MOST_GRAMS);
    const provenance = cells.provenance();
    const isNew = [
      seen.add(cells, "food", food),
      ...alsoCalled.map((name) => seen.add(cells, "also_called", name)),
    ];
    if (food === null || gramsPerMillilitre === null || provenance === null || isNew.includes(false))
      return [];
    return [{ food, alsoCalled, gramsPerMillilitre, ...provenance }];
  });
}
