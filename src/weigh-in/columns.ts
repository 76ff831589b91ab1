import type { Scenario } from "../kitchen/index.js";
import type { CsvColumns } from "../reading/index.js";
import { countedIn, lotText, type Measure, type Row, type RowName } from "./row.js";

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
