import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { type RowCells, rowsOf, SeenOnce } from "../../table-files/index.js";
import { GRAVITY, type Hazard, type Rule } from "../hazards/types.js";
import { isTreated } from "../treatments.js";
import { SAFETY_BASES } from "./basis.js";
import { itemsOf, known, type NameRow, partsOf } from "./names.js";
import { words } from "./words.js";

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
    const ofItems = known(cells, "items", cells.someNames("items"), items);
    const written = cells.someNames("parts");
    const isAny = written.join() === "any";
    const ofParts = isAny ? ("any" as const) : known(cells, "parts", written, parts);
    const except = known(cells, "except", cells.names("except"), parts);
    const hazard = cells.text("harm");
    const rule = ruleIn(cells, "");
    const strict = ["vulnerable_rule", "vulnerable_treatments", "vulnerable_text"];
    const isStricter = strict.some((column) => cells.optionalText(column) !== null);
    const vulnerable = isStricter ? ruleIn(cells, "vulnerable_") : null;
    const provenance = cells.provenanceAmong(SAFETY_BASES);
    if (rule !== null && vulnerable !== null && GRAVITY[vulnerable.kind] > GRAVITY[rule.kind])
      cells.problem("vulnerable_rule", words.laxer(vulnerable.kind, rule.kind));
    const read = {
      items: ofItems,
      parts: ofParts,
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
  const treatments = kind === "only if" ? cells.someNames(column, ";") : cells.names(column, ";");
  for (const treatment of treatments)
    if (isTreated([], treatment)) cells.problem(column, words.noDeed(treatment));
  if (kind !== null && kind !== "only if" && treatments.length > 0)
    cells.problem(column, words.idle(column, kind));
  if (kind === null || text === null) return null;
  return kind === "only if" ? { kind, text, treatments } : { kind, text };
}
