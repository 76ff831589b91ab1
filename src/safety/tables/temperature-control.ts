import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { needRows, rowsOf, SeenOnce } from "../../table-files/index.js";
import { SAFETY_BASES, type SafetyBasis } from "./basis.js";

const COLUMNS: CsvColumns = { required: ["food", "text", "source", "basis"], optional: [] };

const TCS_KINDS = [
  "cut melon",
  "cut leafy greens",
  "cut tomato",
  "seed sprouts",
  "in oil",
  "cooked",
  "animal",
  "mixture",
] as const;
export type TcsKind = (typeof TCS_KINDS)[number];

/** Why a food needs temperature control for safety (TCS), and who says so. */
export interface Tcs {
  readonly kind: TcsKind;
  readonly text: string;
  readonly source: string;
  readonly basis: SafetyBasis;
}

/** Reads temperature-control.csv. */
export function readTemperatureControl(source: Source | undefined, problems: Problem[]): Map<string, Tcs> {
  const kinds = new Map<string, Tcs>();
  const seen = new SeenOnce();
  for (const cells of rowsOf(source, COLUMNS, problems)) {
    const kind = cells.oneOf("food", TCS_KINDS);
    const text = cells.text("text");
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    const isNew = seen.add(cells, "food", kind);
    if (kind !== null && text !== null && provenance !== null && isNew)
      kinds.set(kind, { kind, text, ...provenance });
  }
  needRows(source, TCS_KINDS, (kind) => kinds.has(kind), problems);
  return kinds;
}
