import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { type RowCells, rowsOf, SeenOnce } from "../../table-files/index.js";
import type { Hazard, Rule } from "../hazards/types.js";
import { isTreated } from "../treatments.js";
import { SAFETY_BASES } from "./basis.js";
import { itemsOf, type NameRow, namesAmong, partsOf } from "./names.js";
import * as words from "./words.js";

const COLUMNS: CsvColumns = {
  required: ["hazard", "items", "parts", "harm", "rule", "treatments", "text", "source", "basis"],
  optional: ["except", "vulnerable_rule", "vulnerable_treatments", "vulnerable_text"],
};
const RULES: readonly Rule["kind"][] = ["never", "only if", "warn"];

/** Reads hazards.csv: the items and parts must stand in names.csv. */
export function readHazards(
  source: Source | undefined,
  names: readonly NameRow[],
  problems: Problem[],
): Hazard[] {
  const seen = new SeenOnce();
  const items = itemsOf(names);
  const parts = partsOf(names);
  return rowsOf(source, COLUMNS, problems).flatMap((cells): Hazard[] => {
    const id = cells.text("hazard");
    cells.text("items");
    const isAny = cells.text("parts") === "any";
    const except = namesAmong(cells, "except", parts);
    const hazard = cells.text("harm");
    const rule = ruleIn(cells, "");
    const strict = ["vulnerable_rule", "vulnerable_treatments", "vulnerable_text"];
    const isStricter = strict.some((column) => cells.optionalText(column) !== null);
    const vulnerable = isStricter ? ruleIn(cells, "vulnerable_") : null;
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    const read = {
      items: namesAmong(cells, "items", items),
      parts: isAny ? ("any" as const) : namesAmong(cells, "parts", parts),
      ...(except.length === 0 ? {} : { except }),
      ...(vulnerable === null ? {} : { vulnerable }),
    };
    const isNew = seen.add(cells, "hazard", id);
    if (id === null || hazard === null || rule === null || provenance === null || !isNew) return [];
    return [{ id, hazard, rule, ...read, authority: provenance.source, basis: provenance.basis }];
  });
}

function ruleIn(cells: RowCells, prefix: string): Rule | null {
  const kind = cells.oneOf(`${prefix}rule`, RULES);
  const text = cells.text(`${prefix}text`);
  const column = `${prefix}treatments`;
  const treatments = cells.names(column, ";");
  for (const treatment of treatments)
    if (isTreated([], treatment)) cells.problem(column, words.noDeed(treatment));
  if (kind === "only if") {
    const isFilled = cells.text(column) !== null;
    return text === null || !isFilled ? null : { kind, text, treatments };
  }
  if (kind !== null && treatments.length > 0) cells.problem(column, words.idle(column, kind));
  return kind === null || text === null ? null : { kind, text };
}
