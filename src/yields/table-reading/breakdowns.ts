import type { PartClass } from "../../kitchen/index.js";
import { ONE } from "../../quantity/index.js";
import type { CsvColumns, Problem, Source } from "../../reading/index.js";
import { BASES, type RowCells, rowsOf, SeenOnce } from "../../table-files/index.js";
import { nameOf, type TablePart } from "../tables.js";
import { checkSum, grouped, sumOf } from "./groups.js";

const PART_COLUMNS: CsvColumns = {
  required: ["item", "form", "breakdown", "part", "percent", "class", "source", "basis"],
  optional: ["keeps_days", "keeps_basis", "pieces", "spread", "tests"],
};
const CUT_COLUMNS: CsvColumns = { required: ["item", "form", "breakdown", "minutes", "how"], optional: [] };

const CLASSES: readonly (PartClass | "loss")[] = ["food", "inedible", "never", "loss"];
const LONGEST_KEEPING_DAYS = 365;

/**
 * Reads a file of breakdowns, before minutes and items are joined to them; each must make 100 % with its cutting loss,
 * exactly. The place of one is that of its first row.
 */
export function readBreakdowns(source: Source, problems: Problem[]) {
  const seen = new SeenOnce();
  const unread = new Set<string>();
  const rows = rowsOf(source, PART_COLUMNS, problems).flatMap((cells) => {
    const { row } = cells;
    const key = nameOf(row.cell("item").text, row.cell("form").text, row.cell("breakdown").text);
    const read = partRow(cells, seen);
    if (read === null) unread.add(key);
    return read === null ? [] : [read];
  });
  const breakdowns = grouped(rows, (row) => nameOf(row.item, row.form, row.breakdown));
  return breakdowns.flatMap(({ key, rows: group }) => {
    const [first] = group;
    if (first === undefined) return [];
    if (!unread.has(key)) checkSum(`the parts of ${key}`, sumOf(group), ONE, first.position, problems);
    return [
      {
        item: first.item,
        form: first.form,
        name: first.breakdown,
        position: first.position,
        parts: group.flatMap(({ part, position }) => (part === null ? [] : [{ part, position }])),
        loss: sumOf(group.filter(({ part }) => part === null)),
      },
    ];
  });
}

/** Null where it cannot be read; the row that states the cutting loss has no part. */
function partRow(cells: RowCells, seen: SeenOnce) {
  const item = cells.text("item");
  const form = cells.text("form");
  const breakdown = cells.text("breakdown");
  const name = cells.text("part");
  const fraction = cells.fraction("percent", 100);
  const partClass = cells.oneOf("class", CLASSES);
  const provenance = cells.provenance();
  const keepsDays = cells.optionalWhole("keeps_days", LONGEST_KEEPING_DAYS);
  const keepsBasis = keepsDays === null ? null : cells.oneOf("keeps_basis", BASES);
  const pieces = cells.optionalWhole("pieces", 1000);
  const spread = cells.optionalFraction("spread");
  const tests = cells.optionalWhole("tests", 100_000);
  const isNew = seen.add(cells, "part", item, form, breakdown, name);
  if (item === null || form === null || breakdown === null || name === null || !isNew) return null;
  if (fraction === null || partClass === null || provenance === null) return null;
  const { position } = cells.row;
  if (partClass === "loss") return { item, form, breakdown, position, fraction, part: null };
  const part: TablePart = {
    part: `${item} ${name}`,
    fraction,
    class: partClass,
    keepsDays,
    keepsBasis,
    pieces,
    spread,
    tests,
    ...provenance,
  };
  return { item, form, breakdown, position, fraction, part };
}

/** Reads cuts.csv: the minutes and the instruction of each breakdown. */
export function readCuts(source: Source | undefined, problems: Problem[]) {
  const seen = new SeenOnce();
  return rowsOf(source, CUT_COLUMNS, problems).flatMap((cells) => {
    const item = cells.text("item");
    const form = cells.text("form");
    const breakdown = cells.text("breakdown");
    const minutes = cells.number("minutes", 600);
    const how = cells.text("how");
    const isNew = seen.add(cells, "breakdown", item, form, breakdown);
    if (item === null || form === null || breakdown === null || minutes === null || how === null) return [];
    return isNew ? [{ item, form, breakdown, position: cells.row.position, minutes, how }] : [];
  });
}
