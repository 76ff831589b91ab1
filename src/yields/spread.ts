import type { Spread } from "../kitchen/index.js";
import { Decimal, toGrams, type Weight } from "../quantity/index.js";
import type { Basis } from "../table-files/index.js";
import type { TableItem, TablePart } from "./tables.js";

/** Standard deviation of a unit's weight as a part of it, where the tables give none: their own median. */
export const SPREAD_OF_UNITS = 0.165;
/**
 * How far the average unit of a delivery lies from the tables' weight, against how far one unit lies from the next.
 * Our choice: a delivery is of one field and one grade, so its units are more alike than units at large.
 */
export const DELIVERY_OF_UNITS = 0.5;

/**
 * Standard error of a share p that comes without one: this times sqrt(p (1 - p)). 0.10 is the median scatter of tests
 * in the USDA Table of Cooking Yields for Meat and Poultry (2014). How much further off figures from memory and common
 * practice lie is our choice.
 */
export const ERROR_OF_PUBLISHED: Readonly<Record<Basis, number>> = {
  read: 0.1,
  memory: 0.15,
  "common practice": 0.2,
  "own test": 0.1,
};
/** From test to test, before the tests themselves tell. The same series. */
export const SPREAD_OF_TESTS = 0.1;
/**
 * The spread of a whole item's unit weight, as parts of it. A weight that the scenario states is what units weigh
 * today, so only the spread from unit to unit is left.
 */
export function unitSpreadOf(table: TableItem | null, stated: Weight | undefined): Spread {
  const known = table?.unitSpread ?? null;
  const ofUnits =
    table === null || known === null
      ? new Decimal(SPREAD_OF_UNITS)
      : toGrams(known).div(toGrams(table.unitWeight));
  const ofFigure = stated === undefined ? ofUnits.times(DELIVERY_OF_UNITS) : new Decimal(0);
  return { ofUnits, ofFigure };
}

/** The spread of a breakdown that the scenario states itself: as of a figure from own tests. */
export const STATED_SPREAD: Spread = spreadFrom("own test");

/** The spread of figures of a basis that come without one: the default by basis, and from test to test. */
export function spreadFrom(basis: Basis): Spread {
  return { ofUnits: new Decimal(SPREAD_OF_TESTS), ofFigure: new Decimal(ERROR_OF_PUBLISHED[basis]) };
}

/**
 * The spread of a table's breakdown as one factor of sqrt(p (1 - p)) that keeps the sum of its shares' variances. A
 * published spread is how far kitchens differ, one of own tests how far units do; own tests state their error
 * themselves.
 */
export function yieldSpreadOf(parts: readonly TablePart[]): Spread {
  const shapes = parts.map(({ fraction }) => shapeOf(fraction.toNumber()));
  const shape = shapes.reduce((sum, value) => sum + value, 0);
  if (shape === 0) return { ofUnits: new Decimal(0), ofFigure: new Decimal(0) };
  const factor = (varianceOf: (part: TablePart) => number): Decimal => {
    const variance = parts.reduce((sum, part) => sum + varianceOf(part), 0);
    return new Decimal(Math.sqrt(variance / shape).toFixed(6));
  };
  return {
    ofUnits: factor((part) =>
      part.basis === "own test" && part.spread !== null
        ? part.spread.toNumber() ** 2
        : SPREAD_OF_TESTS ** 2 * shapeOf(part.fraction.toNumber()),
    ),
    ofFigure: factor(({ basis, fraction, spread, standardError }) => {
      const error = standardError ?? spread;
      return error === null
        ? ERROR_OF_PUBLISHED[basis] ** 2 * shapeOf(fraction.toNumber())
        : error.toNumber() ** 2;
    }),
  };
}

function shapeOf(share: number): number {
  return share * (1 - share);
}
