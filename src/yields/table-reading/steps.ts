import type { Part, PartClass } from "../../kitchen/index.js";
import { ONE } from "../../quantity/index.js";
import { type CsvColumns, didYouMean, type Problem, type Source } from "../../reading/index.js";
import { type RowCells, rowsOf, SeenOnce, words as tableWords } from "../../table-files/index.js";
import type { TableStepYield } from "../tables.js";
import { checkSum, grouped, sumOf } from "./groups.js";
import { words } from "./words.js";

const STEP_COLUMNS: CsvColumns = {
  required: ["step", "from", "how", "source", "basis"],
  optional: ["minutes_per_kg"],
};
const PART_COLUMNS: CsvColumns = {
  required: ["step", "part", "percent", "class"],
  optional: ["state", "keeps_days"],
};

const CLASSES: readonly (PartClass | "loss" | "water")[] = ["food", "inedible", "never", "loss", "water"];
const STATES: readonly Part["state"][] = ["raw", "cooked", "frozen"];
/** Stock pots take up a few times the weight of the bones. */
const MOST_PERCENT = 1000;
const LONGEST_KEEPING_DAYS = 730;

/** Reads steps.csv and step-parts.csv. What comes out of a step, with its loss, must make what goes in. */
export function readSteps(steps: Source, stepParts: Source, problems: Problem[]) {
  const heads = stepHeads(steps, problems);
  const { rows, unread } = yieldRows(stepParts, problems);
  const byStep = new Map(grouped(rows, ({ step }) => step).map((group) => [group.key, group.rows]));
  const names = heads.map(({ head }) => head.name);
  for (const { position, step } of rows.filter(({ step }) => !names.includes(step))) {
    problems.push({
      ...position,
      ...tableWords.unknownName("step", step, didYouMean(step, names), steps.file),
    });
  }
  return heads.flatMap(({ head, position }) => {
    const group = byStep.get(head.name) ?? [];
    const ofKind = (...kinds: (typeof CLASSES)[number][]) => group.filter(({ kind }) => kinds.includes(kind));
    const out = ofKind("food", "inedible", "never");
    const first = out[0];
    if (first === undefined) {
      if (!unread.has(head.name)) {
        problems.push({ ...position, ...words.without(`step ${head.name}`, "part", stepParts.file) });
      }
      return [];
    }
    const loss = sumOf(ofKind("loss"));
    const water = sumOf(ofKind("water"));
    if (!unread.has(head.name)) {
      checkSum(
        `parts and loss of ${head.name}`,
        sumOf(out).plus(loss),
        ONE.plus(water),
        first.position,
        problems,
      );
    }
    const yields = out.flatMap(({ stepYield }) => (stepYield === null ? [] : [stepYield]));
    return [
      { position, step: { ...head, yields, loss, water }, yieldPositions: out.map((row) => row.position) },
    ];
  });
}

function stepHeads(source: Source, problems: Problem[]) {
  const seen = new SeenOnce();
  return rowsOf(source, STEP_COLUMNS, problems).flatMap((cells) => {
    const name = cells.text("step");
    const from = cells.someNames("from");
    const how = cells.text("how");
    const minutesPerKilogram = cells.optionalNumber("minutes_per_kg", 600);
    const provenance = cells.provenance();
    const isNew = seen.add(cells, "step", name);
    if (name === null || from.length === 0 || provenance === null || !isNew) return [];
    return [{ position: cells.row.position, head: { name, from, how, minutesPerKilogram, ...provenance } }];
  });
}

function yieldRows(source: Source, problems: Problem[]) {
  const seen = new SeenOnce();
  const unread = new Set<string>();
  const rows = rowsOf(source, PART_COLUMNS, problems).flatMap((cells) => {
    const read = yieldRow(cells, seen);
    if (read === null) unread.add(cells.row.cell("step").text);
    return read === null ? [] : [read];
  });
  return { rows, unread };
}

/** Null where it cannot be read; loss and water are no yields. */
function yieldRow(cells: RowCells, seen: SeenOnce) {
  const step = cells.text("step");
  const part = cells.text("part");
  const fraction = cells.fraction("percent", MOST_PERCENT);
  const kind = cells.oneOf("class", CLASSES);
  const keepsDays = cells.optionalWhole("keeps_days", LONGEST_KEEPING_DAYS);
  const isPart = kind === "food" || kind === "inedible" || kind === "never";
  const state = isPart ? cells.oneOf("state", STATES) : null;
  const isNew = seen.add(cells, "part", step, part);
  if (step === null || part === null || fraction === null || kind === null || !isNew) return null;
  const { position } = cells.row;
  if (!isPart) return { step, position, fraction, kind, stepYield: null };
  if (state === null) return null;
  const stepYield: TableStepYield = { part, fraction, class: kind, state, keepsDays };
  return { step, position, fraction, kind, stepYield };
}
