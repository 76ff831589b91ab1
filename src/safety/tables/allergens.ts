import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { needRows, rowsOf, SeenOnce } from "../../table-files/index.js";
import type { Name } from "../names/lexicon.js";
import { SAFETY_BASES, type SafetyBasis } from "./basis.js";
import { type Known, known, namesIn } from "./names.js";

const COLUMNS: CsvColumns = {
  required: ["allergen", "foods", "source", "basis"],
  optional: ["implies", "of_animals"],
};
const LIST_COLUMNS: CsvColumns = { required: ["list", "name", "allergens", "source", "basis"], optional: [] };

/** Allergens that checks speak of by name. */
const SPOKEN_OF = ["egg", "fish", "tree nuts", "peanuts", "cereals containing gluten"];

/** The lists that a kitchen chooses from. */
export const ALLERGEN_LISTS = ["US nine", "EU and UK fourteen"] as const;
export type AllergenListName = (typeof ALLERGEN_LISTS)[number];

/** An allergen by the name printed, and names of foods that are, hold or are mostly made with it. */
export interface AllergenRow {
  readonly allergen: string;
  readonly foods: readonly Name[];
  /** The allergen that what holds this one holds too. */
  readonly implies: string | null;
  readonly ofAnimals: "milk" | "egg" | "seafood" | null;
}

/** What the law of a place has a kitchen tell its guests. */
export interface AllergenList {
  readonly name: string;
  readonly allergens: readonly string[];
  readonly source: string;
  readonly basis: SafetyBasis;
}

/** Reads allergens.csv. */
export function readAllergens(source: Source | undefined, problems: Problem[]): AllergenRow[] {
  const seen = new SeenOnce();
  const read = rowsOf(source, COLUMNS, problems).flatMap((cells) => {
    const allergen = cells.text("allergen");
    const foods = namesIn(cells, "foods");
    const implies = cells.optionalText("implies");
    const ofAnimals = cells.optionalOneOf("of_animals", ["milk", "egg", "seafood"] as const);
    cells.provenanceAmong(SAFETY_BASES);
    const isNew = seen.add(cells, "allergen", allergen);
    return allergen === null || !isNew ? [] : [{ cells, row: { allergen, foods, implies, ofAnimals } }];
  });
  const rows = read.map(({ row }) => row);
  for (const { cells, row } of read)
    known(cells, "implies", row.implies === null ? [] : [row.implies], allergensOf(rows));
  needRows(source, SPOKEN_OF, (name) => rows.some(({ allergen }) => allergen === name), problems);
  return rows;
}

/** Reads allergen-lists.csv: what the lists name must stand in allergens.csv. */
export function readAllergenLists(
  source: Source | undefined,
  allergens: readonly AllergenRow[],
  problems: Problem[],
): Map<string, AllergenList> {
  const lists = new Map<string, AllergenList>();
  const seen = new SeenOnce();
  for (const cells of rowsOf(source, LIST_COLUMNS, problems)) {
    const list = cells.oneOf("list", ALLERGEN_LISTS);
    const name = cells.text("name");
    const named = known(cells, "allergens", cells.someNames("allergens"), allergensOf(allergens));
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    const isNew = seen.add(cells, "list", list);
    if (list !== null && name !== null && provenance !== null && isNew)
      lists.set(list, { name, allergens: named, ...provenance });
  }
  needRows(source, ALLERGEN_LISTS, (list) => lists.has(list), problems);
  return lists;
}

function allergensOf(rows: readonly AllergenRow[]): Known {
  return { kind: "allergen", names: rows.map(({ allergen }) => allergen), table: "allergens.csv" };
}
