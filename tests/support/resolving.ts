import { expect } from "vitest";
import { readScenario, type Scenario } from "../../src/kitchen/index.js";
import { Decimal, grams } from "../../src/quantity/index.js";
import { problemText } from "../../src/reading/index.js";
import { resolveScenario } from "../../src/scenario/index.js";
import type { TableItem, YieldTables } from "../../src/yields/index.js";

const SOURCE = { source: "invented", basis: "common practice" } as const;

export const NO_TABLES: YieldTables = { items: [], steps: [], cooking: [], densities: [] };

/** An item of a table with one breakdown, each part given as [name, percent, class, days it keeps, pieces]. */
export function tableItem(
  name: string,
  form: string,
  breakdown: string,
  parts: readonly (readonly [string, string, "food" | "inedible" | "never", number | null, number | null])[],
  more: Partial<TableItem> = {},
): TableItem {
  const fractions = parts.map(([, percent]) => new Decimal(percent).div(100));
  return {
    ...SOURCE,
    name,
    alsoCalled: [],
    form,
    handling: "plant",
    measure: "whole",
    unitName: "head",
    unitWeight: grams("600"),
    unitSpread: null,
    keepsDays: 5,
    keepsFrom: null,
    allergens: [],
    treatment: null,
    breakdowns: [
      {
        name: breakdown,
        parts: parts.map(([part, , partClass, keepsDays, pieces], index) => ({
          ...SOURCE,
          part: `${name} ${part}`,
          fraction: fractions[index] ?? new Decimal(0),
          class: partClass,
          keepsDays,
          keepsBasis: null,
          pieces,
          spread: null,
          tests: null,
        })),
        loss: fractions.reduce((rest, fraction) => rest.minus(fraction), new Decimal(1)),
        minutes: null,
        how: null,
      },
    ],
    ...more,
  };
}

/** The problems of a scenario file called `t.yaml`, as they are printed. */
export function problemsOf(text: string, tables: YieldTables = NO_TABLES): string[] {
  return resolveScenario(readScenario({ file: "t.yaml", text }), tables).problems.map(problemText);
}

/** A scenario that has no problem. */
export function resolved(text: string, tables: YieldTables = NO_TABLES): Scenario {
  const { scenario, problems } = resolveScenario(readScenario({ file: "t.yaml", text }), tables);
  expect(problems.map(problemText)).toEqual([]);
  if (scenario === null) throw new Error("no scenario");
  return scenario;
}
