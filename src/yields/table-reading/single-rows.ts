import type { Handling } from "../../kitchen/index.js";
import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { rowsOf, SeenOnce } from "../../table-files/index.js";
import type { CookingYield, Density, TableItem } from "../tables.js";

const ITEM_COLUMNS: CsvColumns = {
  required: [
    "item",
    "form",
    "handling",
    "measure",
    "unit",
    "unit_weight_g",
    "source",
    "basis",
    "keeps_days",
    "keeps_source",
    "keeps_basis",
  ],
  optional: ["unit_spread_g", "allergens", "treatment", "also_called"],
};

const HANDLINGS: readonly Handling[] = ["plant", "egg", "fish", "meat", "poultry"];
const MEASURES = ["whole", "loose"] as const;
const LONGEST_KEEPING_DAYS = 730;

/** Reads items.csv: items before their breakdowns are joined to them. */
export function readItems(source: Source | undefined, problems: Problem[]) {
  const seen = new SeenOnce();
  return rowsOf(source, ITEM_COLUMNS, problems).flatMap((cells) => {
    const name = cells.text("item");
    const form = cells.text("form");
    const handling = cells.oneOf("handling", HANDLINGS);
    const measure = cells.oneOf("measure", MEASURES);
    const unitName = cells.text("unit");
    const unitWeight = cells.grams("unit_weight_g");
    const unitSpread = cells.optionalGrams("unit_spread_g");
    const provenance = cells.provenance();
    const keepsDays = cells.optionalWhole("keeps_days", LONGEST_KEEPING_DAYS);
    const keepsFrom = keepsDays === null ? null : cells.provenance("keeps_source", "keeps_basis");
    const isNew = seen.add(cells, "item", name, form);
    if (name === null || form === null || !isNew) return [];
    if (handling === null || measure === null || unitName === null) return [];
    if (unitWeight === null || provenance === null) return [];
    const item: Omit<TableItem, "breakdowns"> = {
      name,
      form,
      handling,
      measure,
      unitName,
      unitWeight,
      unitSpread,
      keepsDays,
      keepsFrom,
      allergens: cells.names("allergens"),
      alsoCalled: cells.names("also_called"),
      treatment: cells.optionalText("treatment"),
      ...provenance,
    };
    return [{ position: cells.row.position, item }];
  });
}

const COOKING_COLUMNS: CsvColumns = {
  required: ["food", "method", "percent", "source", "basis"],
  optional: ["spread", "tests"],
};

/** Dried beans, grains and pasta come out at up to about three times their weight. */
const MOST_PERCENT = 400;

/** Reads cooking.csv: cooked weight in percent of raw weight. */
export function readCooking(source: Source | undefined, problems: Problem[]): CookingYield[] {
  const seen = new SeenOnce();
  return rowsOf(source, COOKING_COLUMNS, problems).flatMap((cells): CookingYield[] => {
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

const DENSITY_COLUMNS: CsvColumns = {
  required: ["food", "g_per_mL", "source", "basis"],
  optional: ["also_called"],
};

/** The heaviest that kitchens measure in spoons, honey and syrups, weigh about 1.45 g a millilitre. */
const MOST_GRAMS = 2;

/** Reads densities.csv: what a millilitre of a food weighs. No two foods may go by the same name. */
export function readDensities(source: Source | undefined, problems: Problem[]): Density[] {
  const seen = new SeenOnce();
  return rowsOf(source, DENSITY_COLUMNS, problems).flatMap((cells): Density[] => {
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
