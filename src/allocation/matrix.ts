import type { Question } from "./engine.js";
import { SAYS_NOTHING, type Term } from "./model.js";

/**
 * A question as plain arrays, the form in which it crosses into a thread. Rows are compressed: the terms of
 * row r stand at `starts[r]` up to `starts[r + 1]` in `columns` and `values`, each column at most once and
 * never with what says nothing.
 */
export interface Matrix {
  readonly most: boolean;
  readonly constant: number;
  readonly cost: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** 1 where the variable is whole. */
  readonly whole: Uint8Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly starts: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

/** A whole number within this of one is taken for it; any further off is left for `certify` to refuse. */
const SNAP = 1e-6;
/** A whole variable's bound this little off a whole number is that number, not the next one. */
const SLACK = 1e-9;
/** What is left of terms that cancel out is rounding when it is this small beside them. */
const RESIDUE = 1e-12;

/**
 * Adds repeated terms up and leaves out what says nothing, because engines refuse the one and mistake the other, and
 * rounds the bounds of whole variables inward.
 */
export function toMatrix({ model, objective }: Question): Matrix {
  const cost = new Float64Array(model.variables.length);
  for (const [variable, coefficient] of summed(objective.terms)) cost[variable] = coefficient;
  const starts = new Int32Array(model.rows.length + 1);
  const columns: number[] = [];
  const values: number[] = [];
  model.rows.forEach((row, index) => {
    for (const [variable, coefficient] of summed(row.terms)) {
      columns.push(variable);
      values.push(coefficient);
    }
    starts[index + 1] = columns.length;
  });
  return {
    most: objective.sense === "most",
    constant: objective.constant,
    cost,
    lower: Float64Array.from(model.variables, ({ lower, integer }) =>
      integer ? Math.ceil(lower - SLACK) : lower,
    ),
    upper: Float64Array.from(model.variables, ({ upper, integer }) =>
      integer ? Math.floor(upper + SLACK) : upper,
    ),
    whole: Uint8Array.from(model.variables, (variable) => (variable.integer ? 1 : 0)),
    rowLower: Float64Array.from(model.rows, (row) => row.lower),
    rowUpper: Float64Array.from(model.rows, (row) => row.upper),
    starts,
    columns: Int32Array.from(columns),
    values: Float64Array.from(values),
  };
}

function summed(terms: readonly Term[]): [variable: number, coefficient: number][] {
  const sums = new Map<number, { sum: number; size: number }>();
  for (const { variable, coefficient } of terms) {
    const { sum, size } = sums.get(variable) ?? { sum: 0, size: 0 };
    sums.set(variable, { sum: sum + coefficient, size: size + Math.abs(coefficient) });
  }
  return [...sums].flatMap(([variable, { sum, size }]) =>
    Math.abs(sum) > Math.max(SAYS_NOTHING, RESIDUE * size) ? [[variable, sum]] : [],
  );
}

/** The terms of one row, in the order they are stored. */
export function* termsOf(matrix: Matrix, row: number): Generator<[column: number, value: number]> {
  const end = matrix.starts[row + 1] ?? 0;
  for (let k = matrix.starts[row] ?? 0; k < end; k += 1)
    yield [matrix.columns[k] ?? 0, matrix.values[k] ?? 0];
}

/** The power of two that brings the middle of the sizes nearest to one. */
export function scaleOf(values: Iterable<number>): number {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (const value of values) {
    const size = Math.abs(value);
    if (size === 0) continue;
    least = Math.min(least, size);
    most = Math.max(most, size);
  }
  return most === 0 ? 1 : 2 ** -Math.round((Math.log2(least) + Math.log2(most)) / 2);
}

/** What makes the question no question at all, as a sentence, or null. */
export function faultOf({ model, objective }: Question): string | null {
  const count = model.variables.length;
  const terms = (where: string, list: typeof objective.terms): string | null => {
    for (const { variable, coefficient } of list) {
      if (!Number.isFinite(coefficient)) return `${where} has the coefficient ${coefficient}`;
      if (!Number.isInteger(variable) || variable < 0 || variable >= count)
        return `${where} names variable ${variable}, but there are ${count}`;
    }
    return null;
  };
  if (!Number.isFinite(objective.constant)) return `the objective has the constant ${objective.constant}`;
  for (const { name, lower, upper } of model.variables)
    if (!isInterval(lower, upper)) return `variable ${name} has the bounds ${lower} and ${upper}`;
  for (const { name, lower, upper, terms: list } of model.rows) {
    if (!isInterval(lower, upper)) return `row ${name} has the bounds ${lower} and ${upper}`;
    const fault = terms(`row ${name}`, list);
    if (fault !== null) return fault;
  }
  return terms("the objective", objective.terms);
}

/** Bounds that cross are an interval still, an empty one; bounds that are not numbers are not. */
function isInterval(lower: number, upper: number): boolean {
  return lower < Number.POSITIVE_INFINITY && upper > Number.NEGATIVE_INFINITY;
}

/** A point as an engine has it, with whole numbers exactly whole where they are nearly so. */
export function snapped(point: Float64Array, whole: Uint8Array): number[] {
  return Array.from(point, (value, index) => {
    const nearest = Math.round(value);
    return whole[index] === 1 && Math.abs(value - nearest) <= SNAP ? nearest + 0 : value;
  });
}
