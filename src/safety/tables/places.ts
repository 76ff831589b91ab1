import { RULES_OF, type RulesOf } from "../../kitchen/index.js";
import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { needRows, type RowCells, rowsOf, SeenOnce } from "../../table-files/index.js";
import { SAFETY_BASES, type SafetyBasis } from "./basis.js";
import { words } from "./words.js";

/** A temperature as both scales print it; the two are the code's own pair, not computed from each other. */
export interface Temperature {
  readonly celsius: number;
  readonly fahrenheit: number;
}

/** Whose rules a row states, and who says so. */
interface OfPlace {
  readonly rules: RulesOf;
  readonly source: string;
  readonly basis: SafetyBasis;
}

/**
 * Date marking by whose rules bind. Where the law sets no number of days, the figure is the caution said in the
 * source, and the kitchen's own food safety plan comes first.
 */
export interface DateRule extends OfPlace {
  /** How long ready-to-eat food that needs temperature control may be held, day of preparation being day 1. */
  readonly days: number;
  readonly heldAtMost: Temperature;
  /** Food held this long or less needs no date. */
  readonly from: string;
}

/** What a place's rules on holding are called and say beside their figures. */
export interface HoldingRow extends OfPlace {
  /** Whose rules they are, as printed. */
  readonly name: string;
  readonly reheating: string;
  /** Food neither hot nor cold: how long, and what then. */
  readonly without: string;
  /** What the law leaves to the kitchen, or sets beside these. */
  readonly note: string | null;
}

const LIMITS = [
  "cold holding",
  "hot holding",
  "cooling",
  "cooking of poultry",
  "cooking of minced food",
] as const;
export type LimitName = (typeof LIMITS)[number];

/** Limits that every place must have. */
const EVERYWHERE: readonly LimitName[] = ["cold holding", "hot holding", "cooling"];
/** The place that must have all. */
const COMPLETE: RulesOf = "us";

/** A limit of temperature: the most of cold holding and cooling, the least of the rest. */
export interface Limit extends OfPlace {
  readonly limit: LimitName;
  readonly temperature: Temperature;
  /** Where cooling or warming starts. */
  readonly from: Temperature | null;
  /** From the start, not of the stage. */
  readonly withinHours: number | null;
}

const DATE_COLUMNS: CsvColumns = {
  required: ["rules", "days", "celsius", "fahrenheit", "from", "source", "basis"],
  optional: [],
};
const HOLDING_COLUMNS: CsvColumns = {
  required: ["rules", "name", "reheating", "without", "source", "basis"],
  optional: ["note"],
};
const LIMIT_COLUMNS: CsvColumns = {
  required: ["rules", "limit", "celsius", "fahrenheit", "source", "basis"],
  optional: ["from_celsius", "from_fahrenheit", "within_hours"],
};
const FROM = ["from_celsius", "from_fahrenheit"];
const MOST = { days: 30, celsius: 120, fahrenheit: 250, hours: 24 };
/** How far apart the code's own roundings to whole degrees may be. */
const PAIR_TOLERANCE_FAHRENHEIT = 1.01;

/** Reads dates.csv: a row for each place. */
export function readDates(source: Source | undefined, problems: Problem[]): Map<string, DateRule> {
  return byPlace(source, DATE_COLUMNS, problems, (cells) => {
    const days = cells.whole("days", MOST.days);
    const heldAtMost = temperatureIn(cells, "");
    const from = cells.text("from");
    return days === null || heldAtMost === null || from === null ? null : { days, heldAtMost, from };
  });
}

/** Reads holding.csv: a row for each place. */
export function readHolding(source: Source | undefined, problems: Problem[]): Map<string, HoldingRow> {
  return byPlace(source, HOLDING_COLUMNS, problems, (cells) => {
    const name = cells.text("name");
    const reheating = cells.text("reheating");
    const without = cells.text("without");
    const note = cells.optionalText("note");
    return name === null || reheating === null || without === null
      ? null
      : { name, reheating, without, note };
  });
}

/** Reads limits.csv: every place must have those of holding and cooling, the FDA Food Code all. */
export function readLimits(source: Source | undefined, problems: Problem[]): Limit[] {
  const limits = rowsOf(source, LIMIT_COLUMNS, problems).flatMap((cells): Limit[] => {
    const rules = cells.oneOf("rules", RULES_OF);
    const limit = cells.oneOf("limit", LIMITS);
    const temperature = temperatureIn(cells, "");
    const isStage = limit === "cooling";
    const starts = FROM.some((column) => cells.optionalText(column) !== null);
    const from = isStage || starts ? temperatureIn(cells, "from_") : null;
    const hours = isStage
      ? cells.number("within_hours", MOST.hours)
      : cells.optionalNumber("within_hours", MOST.hours);
    const withinHours = hours?.toNumber() ?? null;
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    if (isStage && (from === null || withinHours === null)) return [];
    if (rules === null || limit === null || temperature === null || provenance === null) return [];
    return [{ rules, limit, temperature, from, withinHours, ...provenance }];
  });
  const wanted = RULES_OF.flatMap((rules) =>
    (rules === COMPLETE ? LIMITS : EVERYWHERE).map((limit) => `${rules}, ${limit}`),
  );
  const has = new Set(limits.map(({ rules, limit }) => `${rules}, ${limit}`));
  needRows(source, wanted, (name) => has.has(name), problems);
  return limits;
}

function byPlace<Row>(
  source: Source | undefined,
  columns: CsvColumns,
  problems: Problem[],
  read: (cells: RowCells) => Row | null,
): Map<string, Row & OfPlace> {
  const places = new Map<string, Row & OfPlace>();
  const seen = new SeenOnce();
  for (const cells of rowsOf(source, columns, problems)) {
    const rules = cells.oneOf("rules", RULES_OF);
    const row = read(cells);
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    const isNew = seen.add(cells, "rules", rules);
    if (rules !== null && row !== null && provenance !== null && isNew)
      places.set(rules, { ...row, rules, ...provenance });
  }
  needRows(source, RULES_OF, (rules) => places.has(rules), problems);
  return places;
}

function temperatureIn(cells: RowCells, prefix: string): Temperature | null {
  const celsius = cells.number(`${prefix}celsius`, MOST.celsius)?.toNumber();
  const fahrenheit = cells.number(`${prefix}fahrenheit`, MOST.fahrenheit)?.toNumber();
  if (celsius === undefined || fahrenheit === undefined) return null;
  const isPair = Math.abs((celsius * 9) / 5 + 32 - fahrenheit) < PAIR_TOLERANCE_FAHRENHEIT;
  return isPair
    ? { celsius, fahrenheit }
    : cells.problem(`${prefix}fahrenheit`, words.noPair(celsius, fahrenheit));
}
