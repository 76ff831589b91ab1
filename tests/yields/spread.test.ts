import { describe, expect, it } from "vitest";
import { Decimal, grams } from "../../src/quantity/index.js";
import type { TablePart } from "../../src/yields/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { unitSpreadOf, yieldSpreadOf } from "../../src/yields/spread.js";
import { resolved, tableItem } from "../support/resolving.js";

const head = tableItem("leek", "untrimmed", "cut", [["white", "40", "food", 3, null]], {
  unitWeight: grams("200"),
  unitSpread: grams("30"),
});

describe("the spread of unit weights", () => {
  it("is the table's from unit to unit, and half of it for the delivery", () => {
    const { ofUnits, ofFigure } = unitSpreadOf(head, undefined);
    expect([ofUnits.toNumber(), ofFigure.toNumber()]).toEqual([0.15, 0.075]);
  });

  it("leaves no error of the figure where the scenario says what units weigh today", () => {
    const { ofUnits, ofFigure } = unitSpreadOf(head, grams("180"));
    expect([ofUnits.toNumber(), ofFigure.toNumber()]).toEqual([0.15, 0]);
  });

  it("stands at the tables' median where none is known", () => {
    const ratios = loadYieldTables()
      .tables.items.flatMap(({ unitSpread, unitWeight }) =>
        unitSpread === null ? [] : [Number(unitSpread) / Number(unitWeight)],
      )
      .sort((a, b) => a - b);
    const middle = ratios.length / 2;
    const median = ((ratios[Math.floor(middle - 0.5)] ?? 0) + (ratios[Math.floor(middle)] ?? 0)) / 2;
    expect(unitSpreadOf(null, undefined).ofUnits.toNumber()).toBeCloseTo(median, 2);
  });
});

describe("the spread of a breakdown's yields", () => {
  const part = (percent: string, more: Partial<TablePart>): TablePart => ({
    part: "leek white",
    fraction: new Decimal(percent).div(100),
    class: "food",
    keepsDays: null,
    keepsBasis: null,
    pieces: null,
    spread: null,
    tests: null,
    source: "invented",
    basis: "read",
    ...more,
  });

  it("is the default of the basis where no spread is known", () => {
    const of = (basis: TablePart["basis"]) => yieldSpreadOf([part("40", { basis }), part("50", { basis })]);
    expect(of("read").ofFigure.toNumber()).toBe(0.1);
    expect(of("memory").ofFigure.toNumber()).toBe(0.15);
    expect(of("common practice").ofFigure.toNumber()).toBe(0.2);
    expect(of("read").ofUnits.toNumber()).toBe(0.1);
  });

  it("keeps the sum of the variances of what is known and what is not", () => {
    const { ofFigure } = yieldSpreadOf([
      part("40", { spread: new Decimal("0.06") }),
      part("50", { basis: "memory" }),
    ]);
    const shape = 0.4 * 0.6 + 0.5 * 0.5;
    expect(ofFigure.toNumber() ** 2 * shape).toBeCloseTo(0.06 ** 2 + 0.15 ** 2 * 0.25, 6);
  });

  it("is that of the units for own tests, and for their figure what they say it may be off", () => {
    const { ofUnits, ofFigure } = yieldSpreadOf([
      part("50", { basis: "own test", spread: new Decimal("0.04"), standardError: new Decimal("0.02") }),
    ]);
    expect(ofUnits.toNumber()).toBeCloseTo(0.08, 6);
    expect(ofFigure.toNumber()).toBeCloseTo(0.04, 6);
  });

  it("is carried into the scenario", () => {
    const scenario = resolved(
      `scenario: t
currency: EUR
services: [{name: Lunch, date: 2026-10-08, sitting: lunch}]
items: {leek: {price: 1 / head}}
dishes: {soup: {portions: 2, lines: [{amount: 50 g, from: leek white}]}}
`,
      { items: [head], steps: [], cooking: [], densities: [] },
    );
    expect(scenario.items[0]?.unitSpread?.ofUnits.toNumber()).toBe(0.15);
    expect(scenario.items[0]?.breakdowns[0]?.yieldSpread?.ofFigure.toNumber()).toBe(0.2);
  });
});
