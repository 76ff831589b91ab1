import { type Problem, problemLines } from "../../reading/index.js";
import { packagedTables } from "../../table-files/index.js";
import { lazily } from "../lazily.js";
import type { Name } from "../names/lexicon.js";
import { readSafetyTables, type SafetyTables } from "./read.js";
import type { WordList } from "./word-lists.js";

/** Read at first need: they do not change while the program runs. */
const loaded = lazily(() => readSafetyTables(packagedTables("yield-tables/safety")));

/** All that is wrong in the safety tables that come with the package. */
export function safetyTableProblems(): readonly Problem[] {
  return loaded().problems;
}

/**
 * The safety tables that come with the package. Nothing is judged by tables that are not whole.
 * @throws where anything is wrong in them, with every place
 */
export function safetyTables(): SafetyTables {
  const { tables, problems } = loaded();
  if (problems.length > 0) throw new Error(problemLines(problems).join("\n"));
  return tables;
}

/** The words of a list of words.csv. */
export function wordList(list: WordList): readonly Name[] {
  return rowOf(safetyTables().words, list);
}

/** A row that the table was checked to have. */
export function rowOf<Row>(rows: ReadonlyMap<string, Row>, name: string): Row {
  const row = rows.get(name);
  if (row === undefined) throw new RangeError(`no row of a safety table is called "${name}"`);
  return row;
}
