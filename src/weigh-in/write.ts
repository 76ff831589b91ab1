import type { Scenario } from "../kitchen/index.js";
import { Decimal, milligrams, roundTogether, scaleWithStep, unitNamed } from "../quantity/index.js";
import { csvCell } from "../reading/index.js";
import type { Note } from "./book.js";
import { COLUMNS, nameCells, unitOf } from "./columns.js";
import { figureOf, OF_PLAN, type Row } from "./row.js";

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
