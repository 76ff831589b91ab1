import type { Scenario } from "../kitchen/index.js";
import { Decimal, milligrams, roundTogether, scaleWithStep, unitNamed } from "../quantity/index.js";
import { type CsvColumns, csvCell } from "../reading/index.js";
import type { Note } from "./reconciliation.js";
import { countedIn, figureOf, lotText, type Measure, OF_PLAN, type Row, type RowName } from "./row.js";

/** Columns of the weigh-in file, in the order it is written. */
export const COLUMNS = [
  "what",
  "service",
  "name",
  "way",
  "part",
  "lot",
  "unit",
  "planned",
  "actual",
  "reason",
  "by",
  "time",
] as const;
export type Column = (typeof COLUMNS)[number];

const REQUIRED: readonly Column[] = ["what", "name", "unit", "actual"];
export const WEIGH_IN_COLUMNS: CsvColumns = {
  required: REQUIRED,
  optional: COLUMNS.filter((column) => !REQUIRED.includes(column)),
};

/** What names a row in the file. */
export interface NameCells {
  readonly what: string;
  readonly service: string;
  readonly name: string;
  readonly way: string;
  readonly part: string;
  readonly lot: string;
}

export function nameCells(row: RowName, scenario: Scenario): NameCells {
  return {
    what: row.what,
    service: row.service === null ? "" : (scenario.services[row.service]?.name ?? ""),
    name: row.name,
    way: row.way,
    part: row.part,
    lot: lotText(row.lot, scenario),
  };
}

/** Rows are found by their names whatever the case and the spaces. */
export function cellsKey({ what, service, name, way, part, lot }: NameCells, measure: Measure): string {
  const plain = (text: string) => text.trim().replace(/\s+/g, " ").toLowerCase();
  return JSON.stringify([what, service, name, way, part, lot].map(plain).concat(measure));
}

/** The unit a row is written in: the scale's, the currency, or what is counted. */
export function unitOf(row: Row, scenario: Scenario, scaleUnit: string): string {
  if (row.measure === "weight") return scaleUnit;
  return row.measure === "cost" ? scenario.currency : countedIn(row, scenario);
}

/** What stands in a row's last columns; all blank on a form to be filled in. */
export interface Filled {
  readonly actual: string;
  readonly note: Note;
}

export const NOTHING_FILLED: Filled = { actual: "", note: { reason: "", by: "", time: "" } };

/**
 * The weigh-in as CSV: a row for everything there is to weigh, with what was planned and what is filled in, and the
 * hash of its plan where that is given.
 */
export function writeWeighIn(
  rows: readonly Row[],
  scenario: Scenario,
  filled: (row: Row) => Filled = () => NOTHING_FILLED,
  ofPlan: string | null = null,
): string {
  const { unit } = scaleWithStep(scenario.scaleStep);
  const lines = rows.map((row) => {
    const { actual, note } = filled(row);
    const cells = {
      ...nameCells(row, scenario),
      ...note,
      unit: unitOf(row, scenario, unit),
      planned: figureText(row, row.planned, scenario),
      actual,
    };
    return COLUMNS.map((column) => csvCell(cells[column])).join(",");
  });
  const named = COLUMNS.map((column) => (column === "what" ? OF_PLAN : column === "name" ? ofPlan : ""));
  const last = ofPlan === null ? [] : [named.join(",")];
  return [COLUMNS.join(","), ...lines, ...last].map((line) => `${line}\n`).join("");
}

/** A figure of a row in its unit, with a point for decimals and as many of them as the scale shows. */
function figureText(row: Row, value: bigint, { scaleStep }: Scenario): string {
  if (row.measure !== "weight") {
    const figure = figureOf(row.measure, value);
    return row.measure === "cost" ? figure.toFixed(Math.max(2, figure.decimalPlaces())) : figure.toFixed();
  }
  const scale = scaleWithStep(scaleStep);
  const [shown = milligrams(0n)] = roundTogether([milligrams(value)], scaleStep);
  return scale.read(shown).toFixed(scale.places);
}

/** The figure to the milligram, in the unit that the file is written in. */
export function exactText(row: Row, value: bigint, scenario: Scenario): string {
  const { unit } = scaleWithStep(scenario.scaleStep);
  const named = unitNamed(unit, null);
  if (row.measure !== "weight") return figureText(row, value, scenario);
  if (unit === "g" || named.kind !== "unit") return figureOf(row.measure, value).toFixed();
  return new Decimal(value.toString()).div(1000).div(named.unit.factor).toDecimalPlaces(6).toFixed();
}
