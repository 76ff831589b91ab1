import type { RulesOf } from "../kitchen/index.js";
import { rowOf, safetyTables } from "./tables/load.js";
import type { DateRule } from "./tables/places.js";

/** Date marking by the rules that bind. */
export function dateRule(rules: RulesOf): DateRule {
  return rowOf(safetyTables().dates, rules);
}

/** The rules that bind where a scenario does not say. */
export const DEFAULT_RULES: RulesOf = "us";
