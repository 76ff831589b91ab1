import { activityOf, type Model, type Objective, valueAt } from "./model.js";

/** How far a row or bound may miss, in its own unit, and the rounding allowed besides for each unit of its side. */
const ABSOLUTE = 1e-6;
const RELATIVE = 1e-9;
/** How far the claimed objective may miss the true one, for each unit of 1 + |true|. */
const OBJECTIVE = 1e-6;

export interface Violation {
  readonly of: "row" | "bound" | "whole number" | "objective" | "point";
  /** The row's or variable's name; the model's name for the objective and for the point as a whole. */
  readonly name: string;
  readonly direction: "too little" | "too much";
  /** By how much, in the row's own unit. */
  readonly amount: number;
}

export interface Certificate {
  readonly certified: boolean;
  /** The objective at the point, computed from the model alone. */
  readonly objective: number;
  readonly violations: readonly Violation[];
}

/**
 * Checks a point by the model alone, whoever proposed it: every number finite, every whole number exactly whole, every
 * bound and row kept within 1e-6 + 1e-9 x |side|, and the claimed objective within 1e-6 x (1 + |true|). Whether a
 * better point exists it does not say.
 */
export function certify(
  model: Model,
  objective: Objective,
  point: readonly number[],
  claimed: number,
): Certificate {
  const shape = shapeViolations(model, point);
  if (shape.length > 0) return { certified: false, objective: Number.NaN, violations: shape };
  const value = valueAt(objective, point);
  const violations = [
    ...wholeViolations(model, point),
    ...model.variables.flatMap(({ name, lower, upper }, index) =>
      outside({ of: "bound", name }, point[index] ?? 0, lower, upper),
    ),
    ...model.rows.flatMap((row) =>
      outside({ of: "row", name: row.name }, activityOf(row, point), row.lower, row.upper),
    ),
    ...outside(
      { of: "objective", name: model.name },
      claimed,
      value,
      value,
      OBJECTIVE * (1 + Math.abs(value)),
    ),
  ];
  return { certified: violations.length === 0, objective: value, violations };
}

/** "row chilled is 0.35 too much". */
export function describeViolation({ of, name, amount, direction }: Violation): string {
  return `${of} ${name} is ${Number(amount.toPrecision(6))} ${direction}`;
}

function shapeViolations(model: Model, point: readonly number[]): Violation[] {
  const missing = model.variables.length - point.length;
  if (missing !== 0)
    return [
      {
        of: "point",
        name: model.name,
        direction: missing > 0 ? "too little" : "too much",
        amount: Math.abs(missing),
      },
    ];
  return model.variables.flatMap(({ name }, index): Violation[] => {
    const value = point[index] ?? Number.NaN;
    if (Number.isFinite(value)) return [];
    return [{ of: "point", name, direction: value < 0 ? "too little" : "too much", amount: Math.abs(value) }];
  });
}

function wholeViolations(model: Model, point: readonly number[]): Violation[] {
  return model.variables.flatMap(({ name, integer }, index): Violation[] => {
    const value = point[index] ?? 0;
    const over = value - Math.round(value);
    if (!integer || over === 0) return [];
    return [
      { of: "whole number", name, direction: over > 0 ? "too much" : "too little", amount: Math.abs(over) },
    ];
  });
}

function outside(
  what: Pick<Violation, "of" | "name">,
  value: number,
  lower: number,
  upper: number,
  allowed?: number,
): Violation[] {
  const within = (side: number) => allowed ?? ABSOLUTE + RELATIVE * Math.abs(side);
  if (!(value >= lower - within(lower))) return [{ ...what, direction: "too little", amount: lower - value }];
  if (!(value <= upper + within(upper))) return [{ ...what, direction: "too much", amount: value - upper }];
  return [];
}
