/**
 * An optimisation model as plain printable data: variables with finite lower bounds, named rows, and an
 * objective. Weights are kilograms and money currency units, as binary floats. It knows no solver.
 */
export interface Model {
  readonly name: string;
  readonly variables: readonly Variable[];
  readonly rows: readonly Row[];
}

export interface Variable {
  readonly name: string;
  readonly tag: Tag;
  readonly lower: number;
  /** `Infinity` where none; the builder always states a finite one. */
  readonly upper: number;
  readonly integer: boolean;
}

/** lower <= sum of coefficient x variable <= upper; either side may be infinite. */
export interface Row {
  readonly name: string;
  readonly tag: Tag;
  readonly terms: readonly Term[];
  readonly lower: number;
  readonly upper: number;
}

export interface Term {
  /** Index into the model's variables. */
  readonly variable: number;
  readonly coefficient: number;
}

/** What a variable or row is about, so that search and explanation need not parse names. */
export interface Tag {
  readonly family: string;
  readonly item?: string;
  readonly part?: string;
  readonly dish?: string;
  readonly service?: number;
  readonly course?: string;
  readonly breakdown?: string;
  readonly step?: string;
  readonly destination?: string;
  readonly vessel?: string;
  readonly supplier?: string;
  readonly line?: number;
}

/**
 * A coefficient up to this says nothing, and is left out wherever one is written down: HiGHS leaves it out unasked, and
 * a milligram times this is less than any scale shows.
 */
export const SAYS_NOTHING = 1e-9;

export interface Objective {
  readonly sense: "least" | "most";
  readonly terms: readonly Term[];
  readonly constant: number;
}

/** The objective's value at a point. */
export function valueAt(objective: Objective, point: readonly number[]): number {
  return objective.terms.reduce(
    (sum, { variable, coefficient }) => sum + coefficient * (point[variable] ?? 0),
    objective.constant,
  );
}

/** The row's left side at a point. */
export function activityOf(row: Row, point: readonly number[]): number {
  return row.terms.reduce((sum, { variable, coefficient }) => sum + coefficient * (point[variable] ?? 0), 0);
}
