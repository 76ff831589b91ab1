import type { Problem, Source } from "../../reading/index.js";
import { namedTables } from "../../table-files/index.js";
import type { Hazard } from "../hazards/types.js";
import { type AllergenList, type AllergenRow, readAllergenLists, readAllergens } from "./allergens.js";
import { readHazards } from "./hazards.js";
import { type NameRow, readNames } from "./names.js";
import { type DateRule, type HoldingRow, type Limit, readDates, readHolding, readLimits } from "./places.js";
import { readTemperatureControl, type Tcs } from "./temperature-control.js";
import { readWordLists, type WordLists } from "./word-lists.js";
import { words } from "./words.js";

/** What the checks of safety go by, as read from yield-tables/safety/. */
export interface SafetyTables {
  /** Parts that are never food, or only after a treatment, or with a caution. */
  readonly hazards: readonly Hazard[];
  /** What names stand for, items first, then parts, then names of both. */
  readonly names: readonly NameRow[];
  readonly words: WordLists;
  readonly allergens: readonly AllergenRow[];
  readonly allergenLists: ReadonlyMap<string, AllergenList>;
  readonly temperatureControl: ReadonlyMap<string, Tcs>;
  /** By whose rules they are. */
  readonly dates: ReadonlyMap<string, DateRule>;
  readonly holding: ReadonlyMap<string, HoldingRow>;
  readonly limits: readonly Limit[];
}

const NAMED = [
  "hazards.csv",
  "names.csv",
  "words.csv",
  "allergens.csv",
  "allergen-lists.csv",
  "temperature-control.csv",
  "dates.csv",
  "holding.csv",
  "limits.csv",
] as const;

/** Reads the safety tables. All that is wrong in them is reported at once, by file, line and column. */
export function readSafetyTables(sources: readonly Source[]): { tables: SafetyTables; problems: Problem[] } {
  const problems: Problem[] = [];
  const { named, others } = namedTables(NAMED, sources, "safety tables", problems);
  for (const { file } of others) problems.push({ file, line: 1, column: 1, ...words.strayFile(NAMED) });
  const names = readNames(named.get("names.csv"), problems);
  const allergens = readAllergens(named.get("allergens.csv"), problems);
  const tables = {
    names,
    allergens,
    hazards: readHazards(named.get("hazards.csv"), names, problems),
    words: readWordLists(named.get("words.csv"), problems),
    allergenLists: readAllergenLists(named.get("allergen-lists.csv"), allergens, problems),
    temperatureControl: readTemperatureControl(named.get("temperature-control.csv"), problems),
    dates: readDates(named.get("dates.csv"), problems),
    holding: readHolding(named.get("holding.csv"), problems),
    limits: readLimits(named.get("limits.csv"), problems),
  };
  return { tables, problems };
}
