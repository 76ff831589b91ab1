import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { needRows, rowsOf } from "../../table-files/index.js";
import type { Name } from "../names/lexicon.js";
import { SAFETY_BASES } from "./basis.js";
import { namesIn } from "./names.js";

const COLUMNS: CsvColumns = { required: ["list", "words", "source", "basis"], optional: [] };

/** The lists of words.csv; yield-tables/README.md says what each holds. */
export const WORD_LISTS = [
  "harmless",
  "kitchen words",
  "food parts",
  "no allergen",
  "meat",
  "dairy",
  "plants",
  "melon",
  "leafy greens",
  "leaf",
  "tomato",
  "seed sprouts",
  "in oil",
  "cooked",
  "herb",
  "preserved",
  "none of these",
] as const;
export type WordList = (typeof WORD_LISTS)[number];

export type WordLists = ReadonlyMap<string, readonly Name[]>;

/** Reads words.csv: the rows of a list are one, in their order. */
export function readWordLists(source: Source | undefined, problems: Problem[]): WordLists {
  const lists = new Map<string, readonly Name[]>();
  for (const cells of rowsOf(source, COLUMNS, problems)) {
    const list = cells.oneOf("list", WORD_LISTS);
    const names = namesIn(cells, "words");
    cells.provenanceAmong(SAFETY_BASES);
    if (list !== null) lists.set(list, [...(lists.get(list) ?? []), ...names]);
  }
  needRows(source, WORD_LISTS, (list) => lists.has(list), problems);
  return lists;
}
