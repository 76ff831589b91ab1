import {
  type Model,
  type Objective,
  type Row,
  SAYS_NOTHING,
  type Tag,
  type Term,
  type Variable,
} from "./model.js";

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
  readonly #variables: Variable[] = [];
  readonly #rows: Row[] = [];

  /** Adds a variable; the bounds of a whole one are made whole. */
  variable(
    tag: Tag,
    name: string,
    upper: number,
    options: { lower?: number; integer?: boolean } = {},
  ): number {
    const { lower = 0, integer = false } = options;
    if (this.#variables.length === MOST_VARIABLES) throw new ModelTooLarge();
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

  lowerOf(variable: number): number {
    return this.#variables[variable]?.lower ?? 0;
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
