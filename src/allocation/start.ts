import type { Model } from "./model.js";

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
