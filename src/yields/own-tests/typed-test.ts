import { csvCell, type Problem, type Source } from "../../reading/index.js";
import type { TableBreakdown, TableItem } from "../tables.js";
import { HEADING } from "./write-tests.js";

/** A yield test as someone typed it, nothing read yet; weights in the order of the breakdown's parts. */
export interface TypedTest {
  readonly supplier: string;
  readonly date: string;
  readonly units: string;
  readonly apWeight: string;
  readonly scaleStep: string;
  readonly weights: readonly string[];
  /** "" where none was found. */
  readonly loss: string;
}

/** A place of the form: a head field by name, a weight by the number of its part; null for what no field can mend. */
export type TypedField = Exclude<keyof TypedTest, "weights"> | number | null;

export interface TypedSource {
  /** For `readYieldTests`. */
  readonly source: Source;
  /** The field that a problem of that text is about. */
  fieldOf(problem: Problem): TypedField;
  /** Whether it is about a field that holds nothing. */
  isBlank(problem: Problem): boolean;
}

const HEAD_FIELDS: Readonly<Record<string, TypedField>> = {
  supplier: "supplier",
  date: "date",
  units: "units",
  ap_g: "apWeight",
  scale_step_g: "scaleStep",
};

/** What was typed as CSV text, so that a form is judged by what judges a file. */
export function typedYieldTest(
  item: TableItem,
  { name, parts }: TableBreakdown,
  typed: TypedTest,
): TypedSource {
  const { supplier, date, units, apWeight, scaleStep, weights, loss } = typed;
  const head = [item.name, item.form, name, supplier, date, "1", units, apWeight, scaleStep];
  const rows = [
    ...parts.map(({ part, class: partClass }, index) => [
      ...head,
      part.slice(item.name.length + 1),
      weights[index] ?? "",
      partClass,
    ]),
    ...(loss.trim() === "" ? [] : [[...head, "loss", loss, "loss"]]),
  ].map((cells) => cells.map((text) => csvCell(text.replace(/\s+/g, " ").trim())));
  const file = "yield test";
  const cellOf = (problem: Problem) => {
    const row = problem.line - 2;
    const cells = rows[row];
    if (problem.file !== file || cells === undefined) return null;
    const index = columnAt(cells, problem.column);
    return { row, column: HEADING.split(",")[index] ?? "", text: cells[index] ?? "" };
  };
  return {
    source: { file, text: `${[HEADING, ...rows.map((cells) => cells.join(","))].join("\n")}\n` },
    fieldOf: (problem) => {
      const { row = 0, column = "" } = cellOf(problem) ?? {};
      if (column === "weight_g") return row < parts.length ? row : "loss";
      return HEAD_FIELDS[column] ?? null;
    },
    isBlank: (problem) => cellOf(problem)?.text === "",
  };
}

/** Which cell of a row begins at or before a column of the text. */
function columnAt(cells: readonly string[], column: number): number {
  let start = 1;
  const index = cells.findIndex((text) => {
    start += [...text].length + 1;
    return column < start;
  });
  return Math.max(0, index);
}
