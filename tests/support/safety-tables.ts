import type { RulesOf } from "../../src/kitchen/index.js";
import { allergenList, allergenNames } from "../../src/safety/allergens.js";
import { dateRule, hazards, holdingRules } from "../../src/safety/index.js";
import { safetyTables } from "../../src/safety/tables/load.js";

const { names } = safetyTables();
const written = (row: (typeof names)[number]): string => row.names.map(({ text }) => text).join(", ");

/** The safety tables that come with the package, as constants. */
export const HAZARDS = hazards();
export const ITEM_NAMES: Readonly<Record<string, string>> = Object.fromEntries(
  names.flatMap((row) => (row.item !== null && row.part === null ? [[row.item, written(row)]] : [])),
);
export const PARTS: Readonly<Record<string, string>> = Object.fromEntries(
  names.flatMap((row) => (row.part !== null && row.item === null ? [[row.part, written(row)]] : [])),
);
export const ALLERGENS = allergenNames();
export const ALLERGEN_LISTS = {
  "US nine": allergenList("US nine"),
  "EU and UK fourteen": allergenList("EU and UK fourteen"),
};

/** The first of the names of a row, which a row must have. */
export function first(written: string | undefined): string {
  if (written === undefined) throw new RangeError("the tables have no such row of names");
  return (written.split(",")[0] ?? "").replace("=", "").trim();
}

export const DATE_RULES = byPlace(dateRule);
export const HOLDING_RULES = byPlace(holdingRules);

function byPlace<Rules>(of: (rules: RulesOf) => Rules): Record<RulesOf, Rules> {
  return { us: of("us"), uk: of("uk"), eu: of("eu"), france: of("france"), australia: of("australia") };
}
