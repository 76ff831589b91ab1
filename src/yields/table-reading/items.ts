import type { Handling } from "../../kitchen/index.js";
import type { CsvColumns, Position, Problem, Source } from "../../reading/index.js";
import { rowsOf, SeenOnce } from "../../table-files/index.js";
import type { TableItem } from "../tables.js";

const COLUMNS: CsvColumns = {
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

/** An item before its breakdowns are joined to it. */
export interface ItemRow {
  readonly position: Position;
  readonly item: Omit<TableItem, "breakdowns">;
}

/** Reads items.csv. */
export function readItems(source: Source | undefined, problems: Problem[]): ItemRow[] {
  const seen = new SeenOnce();
  return rowsOf(source, COLUMNS, problems).flatMap((cells): ItemRow[] => {
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
    const item = {
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
