import fc from "fast-check";
import type { Question } from "../../src/allocation/engine.js";
import type { Row, Term, Variable } from "../../src/allocation/model.js";

/** The seed of this run's random tests: CHECK_SEED, or a new one each time. Print it. */
export const seed = Number(process.env.CHECK_SEED ?? Math.trunc(Math.random() * 2 ** 31));

/** Quarters are exact in binary and tie often; thousandths are not, and seldom do. */
const coefficient = fc.oneof(
  fc.integer({ min: -20, max: 20 }).map((quarters) => quarters / 4),
  fc.integer({ min: -5000, max: 5000 }).map((thousandths) => thousandths / 1000),
);

interface Size {
  readonly variables: number;
  readonly rows: number;
}

/**
 * Small models with every kind of row (at most, at least, equal, between) and of variable: whole or not, with
 * lower bounds below, at and above zero, and, where no variable is whole, sometimes without an upper bound.
 * Most rows are drawn around one point inside the bounds, so that most models can be done; one in six is not.
 */
export function randomQuestion(most: Size, allowWhole: boolean): fc.Arbitrary<Question> {
  return fc
    .tuple(fc.integer({ min: 1, max: most.variables }), fc.boolean())
    .chain(([count, anyWhole]) =>
      fc.record({
        drawn: fc.array(randomVariable(allowWhole && anyWhole), { minLength: count, maxLength: count }),
        rows: fc.array(randomRow(count), { maxLength: most.rows }),
        sense: fc.constantFrom("least" as const, "most" as const),
        terms: randomTerms(count),
        constant: fc.integer({ min: -50, max: 50 }),
      }),
    )
    .map(({ drawn, rows, ...objective }) => ({
      model: {
        name: "random",
        variables: drawn.map(({ variable }, index) => ({ ...variable, name: `x${index}` })),
        rows: rows.map((row, index) =>
          placed(
            row,
            `r${index}`,
            drawn.map(({ inside }) => inside),
          ),
        ),
      },
      objective,
    }));
}

interface DrawnVariable {
  readonly variable: Omit<Variable, "name">;
  readonly inside: number;
}

function randomVariable(allowWhole: boolean): fc.Arbitrary<DrawnVariable> {
  return fc
    .tuple(
      fc.integer({ min: -4, max: 4 }),
      fc.nat({ max: 9 }),
      fc.nat({ max: 9 }),
      fc.boolean(),
      fc.nat({ max: 3 }),
    )
    .map(([from, width, step, isWhole, roll]) => {
      const lower = roll === 0 ? from : 0;
      const upper = !allowWhole && roll === 1 ? Number.POSITIVE_INFINITY : lower + width;
      return {
        variable: { tag: { family: "random" }, lower, upper, integer: allowWhole && isWhole },
        inside: Math.min(lower + step, upper),
      };
    });
}

function randomTerms(count: number): fc.Arbitrary<Term[]> {
  return fc
    .array(fc.tuple(fc.integer({ min: 0, max: count - 1 }), coefficient), { maxLength: count + 1 })
    .map((pairs) => pairs.map(([variable, value]) => ({ variable, coefficient: value })));
}

interface DrawnRow {
  readonly terms: readonly Term[];
  readonly kind: "<=" | ">=" | "=" | "between";
  /** How far the side is from the row's sum at the point inside. */
  readonly slack: number;
  readonly width: number;
}

function randomRow(count: number): fc.Arbitrary<DrawnRow> {
  return fc.record({
    terms: randomTerms(count),
    kind: fc.constantFrom("<=" as const, ">=" as const, "=" as const, "between" as const),
    slack: fc.integer({ min: -1, max: 8 }).map((quarters) => quarters / 4),
    width: fc.nat({ max: 12 }),
  });
}

function placed({ terms, kind, slack, width }: DrawnRow, name: string, point: readonly number[]): Row {
  const sum = terms.reduce((total, term) => total + term.coefficient * (point[term.variable] ?? 0), 0);
  const lower = kind === "=" ? sum + Math.min(0, slack) : sum - slack;
  const upper = kind === "=" ? lower : kind === "between" ? lower + width : sum + slack;
  return {
    name,
    tag: { family: "random" },
    terms,
    lower: kind === "<=" ? Number.NEGATIVE_INFINITY : lower,
    upper: kind === ">=" ? Number.POSITIVE_INFINITY : upper,
  };
}
