import type { Handling, RulesOf } from "../kitchen/index.js";
import { safetyTables } from "./tables/load.js";
import type { Limit, LimitName, Temperature } from "./tables/places.js";

/** The limits of that name, in the table's order: of cooling, each of its stages. */
export function limitsOf(rules: RulesOf, name: LimitName): Limit[] {
  return safetyTables().limits.filter((row) => row.rules === rules && row.limit === name);
}

/** The limit of that name, which the rules must have. */
export function limitOf(rules: RulesOf, name: LimitName): Limit {
  const [limit] = limitsOf(rules, name);
  if (limit === undefined) throw new RangeError(`the rules of ${rules} have no limit of ${name}`);
  return limit;
}

/**
 * The core temperature, by the FDA Food Code, that does for whatever is cooked of a handling class, minced or pooled
 * too, but not stuffed: of poultry at once, else for 17 seconds, 15 seconds in codes before 2017. Null where the code
 * sets none (plants not held hot).
 */
export function cookingMinimum(handling: Handling): Limit | null {
  if (handling === "plant") return null;
  return limitOf("us", handling === "poultry" ? "cooking of poultry" : "cooking of minced food");
}

/** "74 C (165 F)". */
export function temperatureText({ celsius, fahrenheit }: Temperature): string {
  return `${celsius} C (${fahrenheit} F)`;
}
