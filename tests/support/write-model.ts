import type { Question } from "../../src/allocation/engine.js";
import type { Objective, Row, Term, Variable } from "../../src/allocation/model.js";

/** Coefficients by variable; a list of them stands for as many terms of the same variable. */
type Amounts = Readonly<Record<string, number | readonly number[]>>;

/** A row as on paper: `["labour", { x: 1, y: 2 }, "<=", 12]`, or between two sides: `["blend", {...}, 250, 300]`. */
export type WrittenRow =
  | readonly [name: string, sum: Amounts, relation: "<=" | ">=" | "=", side: number]
  | readonly [name: string, sum: Amounts, lower: number, upper: number];

export interface Written {
  readonly name: string;
  readonly least?: Amounts;
  readonly most?: Amounts;
  readonly constant?: number;
  readonly rows: readonly WrittenRow[];
  /** `true` where every variable is whole. */
  readonly whole?: true | readonly string[];
  /** Bounds other than zero and none. */
  readonly between?: Readonly<Record<string, readonly [number, number]>>;
}

/** Variables are those named anywhere, in the order in which they are first named. */
export function writeQuestion(written: Written): Question {
  const sums = [written.least ?? {}, written.most ?? {}, ...written.rows.map(([, sum]) => sum)];
  const names = [
    ...new Set([...sums.flatMap((sum) => Object.keys(sum)), ...Object.keys(written.between ?? {})]),
  ];
  const terms = (sum: Amounts): Term[] =>
    Object.entries(sum).flatMap(([name, amounts]) =>
      [amounts].flat().map((coefficient) => ({ variable: names.indexOf(name), coefficient })),
    );
  const variables = names.map((name): Variable => {
    const [lower, upper] = written.between?.[name] ?? [0, Number.POSITIVE_INFINITY];
    const integer = written.whole === true || (written.whole?.includes(name) ?? false);
    return { name, tag: { family: "written" }, lower, upper, integer };
  });
  const rows = written.rows.map((row): Row => {
    const [name, sum] = row;
    return { name, tag: { family: "written" }, terms: terms(sum), ...sidesOf(row) };
  });
  const objective: Objective = {
    sense: written.most === undefined ? "least" : "most",
    terms: terms(written.most ?? written.least ?? {}),
    constant: written.constant ?? 0,
  };
  return { model: { name: written.name, variables, rows }, objective };
}

function sidesOf([, , relation, side]: WrittenRow): { lower: number; upper: number } {
  if (typeof relation === "number") return { lower: relation, upper: side };
  return {
    lower: relation === "<=" ? Number.NEGATIVE_INFINITY : side,
    upper: relation === ">=" ? Number.POSITIVE_INFINITY : side,
  };
}
