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

/** A bound this little below a whole number is that number. */
const WHOLE = 1e-9;
/** So many things to decide fit in memory with what the engines make of them. */
const MOST_VARIABLES = 200_000;

/** A scenario asks for more than memory holds, known before all of it is built. */
export class ModelTooLarge extends Error {
  override readonly name = "ModelTooLarge";
  readonly problems: readonly { readonly what: string; readonly remedy: string }[];

  constructor() {
    const what = `there is more to decide than fits in memory, over ${MOST_VARIABLES.toLocaleString("en")} things`;
    const remedy = "Split the scenario: write fewer services, dishes or items in one file";
    super(`${what}. ${remedy}`);
    this.problems = [{ what, remedy }];
  }
}

/** A sum of coefficients by variable, kept while a row or an objective is put together. */
export class Sum {
  readonly #coefficients = new Map<number, number>();

  add(variable: number, coefficient: number): this {
    this.#coefficients.set(variable, (this.#coefficients.get(variable) ?? 0) + coefficient);
    return this;
  }

  addSum(other: Sum, factor = 1): this {
    for (const [variable, coefficient] of other.#coefficients) this.add(variable, coefficient * factor);
    return this;
  }

  get isEmpty(): boolean {
    return this.#coefficients.size === 0;
  }

  terms(): Term[] {
    return [...this.#coefficients]
      .filter(([, coefficient]) => Math.abs(coefficient) > SAYS_NOTHING)
      .map(([variable, coefficient]) => ({ variable, coefficient }));
  }
}

/** Collects variables and named rows into a model. */
export class ModelBuilder {
  readonly #variables: Variable[];
  readonly #rows: Row[];
  readonly #most: number;

  /** Adds to nothing, or to what a model has. */
  constructor({ variables, rows }: Pick<Model, "variables" | "rows"> = { variables: [], rows: [] }) {
    this.#variables = [...variables];
    this.#rows = [...rows];
    this.#most = variables.length + MOST_VARIABLES;
  }

  /** Adds a variable; the bounds of a whole one are made whole. */
  variable(
    tag: Tag,
    name: string,
    upper: number,
    options: { lower?: number; integer?: boolean } = {},
  ): number {
    const { lower = 0, integer = false } = options;
    if (this.#variables.length === this.#most) throw new ModelTooLarge();
    const most = integer ? Math.floor(upper + WHOLE) : upper;
    this.#variables.push({ name, tag, lower, upper: most, integer });
    return this.#variables.length - 1;
  }

  /** Adds lower <= sum <= upper. A row without terms that holds at zero says nothing and is left out. */
  row(tag: Tag, name: string, sum: Sum, bounds: { lower?: number; upper?: number }): void {
    const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = bounds;
    const terms = sum.terms();
    if (terms.length === 0 && lower <= 0 && upper >= 0) return;
    this.#rows.push({ name, tag, terms, lower, upper });
  }

  variablesTagged(family: string): { tag: Tag; index: number }[] {
    return this.#variables.flatMap(({ tag }, index) => (tag.family === family ? [{ tag, index }] : []));
  }

  upperOf(variable: number): number {
    return this.#variables[variable]?.upper ?? 0;
  }

  /** The most that a sum can be, its variables being 0 at the least. */
  mostOf(sum: Sum): number {
    return sum
      .terms()
      .reduce((most, term) => most + Math.max(0, term.coefficient) * this.upperOf(term.variable), 0);
  }

  lowerOf(variable: number): number {
    return this.#variables[variable]?.lower ?? 0;
  }

  tagOf(variable: number): Tag | undefined {
    return this.#variables[variable]?.tag;
  }

  nameOf(variable: number): string {
    return this.#variables[variable]?.name ?? "";
  }

  build(name: string): Model {
    return { name, variables: this.#variables, rows: this.#rows };
  }
}

export function leastOf(sum: Sum, constant = 0): Objective {
  return { sense: "least", terms: sum.terms(), constant };
}

/** A point by the names of its variables, so that a model with other rows and variables can start from it. */
export type NamedPoint = ReadonlyMap<string, number>;

export function namedPoint({ variables }: Model, point: readonly number[]): NamedPoint {
  return new Map(variables.map(({ name }, index) => [name, point[index] ?? 0]));
}

/** The point in another model, as near as its bounds allow: a start, which need not keep to every row. */
export function startFrom(named: NamedPoint, { variables }: Model): number[] {
  return variables.map(({ name, lower, upper }) =>
    Math.min(upper, Math.max(lower, named.get(name) ?? lower)),
  );
}
