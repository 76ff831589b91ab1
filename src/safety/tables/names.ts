import { type CsvColumns, didYouMean, type Problem, type Source } from "../../reading/index.js";
import { type RowCells, rowsOf, SeenOnce, words as tableWords } from "../../table-files/index.js";
import { type Name, nameOf } from "../names/lexicon.js";
import { SAFETY_BASES } from "./basis.js";
import { words } from "./words.js";

const COLUMNS: CsvColumns = {
  required: ["item", "part", "names", "source", "basis"],
  optional: ["of_animals"],
};

/** A row of names.csv: what its names stand for, an item, a part, or a part of an item. */
export interface NameRow {
  readonly item: string | null;
  readonly part: string | null;
  readonly names: readonly Name[];
  /** What food the item itself is, where it is of animals. */
  readonly ofAnimals: "meat" | "egg" | null;
}

/** Reads names.csv. A name of a part of an item needs rows of both. */
export function readNames(source: Source | undefined, problems: Problem[]): NameRow[] {
  const seen = new SeenOnce();
  const read = rowsOf(source, COLUMNS, problems).map((cells) => {
    const item = cells.optionalText("item");
    const part = cells.optionalText("part");
    const ofAnimals = cells.optionalOneOf("of_animals", ["meat", "egg"] as const);
    const names = namesIn(cells, "names");
    cells.provenanceAmong(SAFETY_BASES);
    if (item === null && part === null) cells.problem("item", words.ofNothing());
    seen.add(cells, "item", ...(item === null ? [] : [item]), ...(part === null ? [] : [`part ${part}`]));
    return { cells, row: { item, part, names, ofAnimals } };
  });
  const rows = read.map(({ row }) => row);
  for (const { cells, row } of read) {
    if (row.item === null || row.part === null) continue;
    known(cells, "item", [row.item], itemsOf(rows));
    known(cells, "part", [row.part], partsOf(rows));
  }
  return rows;
}

/** The names in a cell, the commonest first. */
export function namesIn(cells: RowCells, column: string): Name[] {
  return cells.someNames(column).flatMap((text) => {
    const name = nameOf(text);
    return name.words.length > 0 ? [name] : (cells.problem(column, words.noWord(text)) ?? []);
  });
}

/** What a table has rows of. */
export interface Known {
  readonly kind: string;
  readonly names: readonly string[];
  readonly table: string;
}

/** Those of the names in a cell that a table knows; the others are reported. */
export function known(
  cells: RowCells,
  column: string,
  names: readonly string[],
  { kind, names: all, table }: Known,
): string[] {
  for (const name of names.filter((each) => !all.includes(each)))
    cells.problem(column, tableWords.unknownName(kind, name, didYouMean(name, all), table));
  return names.filter((name) => all.includes(name));
}

/** The items that have a row of names. */
export function itemsOf(rows: readonly NameRow[]): Known {
  const names = rows.flatMap(({ item, part }) => (item !== null && part === null ? [item] : []));
  return { kind: "item", names, table: "names.csv" };
}

/** The parts that have a row of names. */
export function partsOf(rows: readonly NameRow[]): Known {
  const names = rows.flatMap(({ item, part }) => (item === null && part !== null ? [part] : []));
  return { kind: "part", names, table: "names.csv" };
}
