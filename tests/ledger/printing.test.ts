import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { printedColumn, printedTable } from "../../src/ledger/index.js";
import { grams, milligrams, money, type Weight } from "../../src/quantity/index.js";

const SEED = 20261003;
console.info(`printing properties: seed ${SEED}`);

describe("a printed column", () => {
  it("adds up to the exact total rounded half up", () => {
    const { figures, total } = printedColumn([money("0.335"), money("0.335"), money("0.335")], money("0.01"));
    expect(figures).toEqual([money("0.34"), money("0.34"), money("0.33")]);
    expect(total).toBe(money("1.01"));
  });

  it("is nothing when empty", () => {
    expect(printedColumn<Weight>([], grams("1"))).toEqual({ figures: [], total: 0n });
  });
});

describe("a printed table", () => {
  it("adds up both ways where rounding each figure would not", () => {
    const half = grams("0.5");
    const none = grams("0");
    // Rows of 0.5 + 0.5 and 0.5 + 0: 1.5 in all, rounded half up to 2.
    const { cells, rowTotals, columnTotals, total } = printedTable(
      [
        [half, half],
        [half, none],
      ],
      grams("1"),
    );
    expect(total).toBe(grams("2"));
    expect(cells[1]?.[1]).toBe(none);
    expect(rowTotals[0]).toBe(grams("1"));
    expect(columnTotals[0]).toBe(grams("1"));
  });

  it("leaves whole steps as they are, and is nothing when empty", () => {
    const rows = [
      [grams("120"), grams("0")],
      [grams("80"), grams("5")],
    ];
    expect(printedTable(rows, grams("5")).cells).toEqual(rows);
    expect(printedTable([[grams("3")], [grams("4")]], grams("1")).rowTotals).toEqual([
      grams("3"),
      grams("4"),
    ]);
    expect(printedTable([], grams("1"))).toEqual({ cells: [], rowTotals: [], columnTotals: [], total: 0n });
  });

  it("refuses rows of unequal length", () => {
    expect(() => printedTable([[grams("1")], []], grams("1"))).toThrow(RangeError);
  });

  it("puts every figure and every total on a step next to its exact value, the total on the nearest", () => {
    const cell = fc
      .oneof(fc.constant(0n), fc.bigInt({ min: 0n, max: 25n }), fc.bigInt({ min: 0n, max: 99_999n }))
      .map(milligrams);
    const table = fc
      .integer({ min: 0, max: 9 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 12 }),
      );
    const step = fc.constantFrom(1n, 7n, 10n, 1000n).map(milligrams);
    fc.assert(
      fc.property(table, step, (rows, unit) => {
        const printed = printedTable(rows, unit);
        const sum = (amounts: readonly bigint[]) => amounts.reduce((acc, amount) => acc + amount, 0n);
        const column = (source: readonly (readonly bigint[])[], index: number) =>
          source.map((row) => row[index] ?? 0n);
        const nextTo = (figure: bigint | undefined, exact: bigint) => {
          const off = (figure ?? -1n) - exact;
          return figure !== undefined && figure % unit === 0n && off < unit && off > -unit;
        };
        rows.forEach((row, index) => {
          const out = printed.cells[index] ?? [];
          expect(row.every((exact, position) => nextTo(out[position], exact))).toBe(true);
          expect(printed.rowTotals[index]).toBe(sum(out));
          expect(nextTo(printed.rowTotals[index], sum(row))).toBe(true);
        });
        for (let index = 0; index < (rows[0]?.length ?? 0); index++) {
          expect(printed.columnTotals[index]).toBe(sum(column(printed.cells, index)));
          expect(nextTo(printed.columnTotals[index], sum(column(rows, index)))).toBe(true);
        }
        expect(printed.total).toBe(sum(printed.rowTotals));
        expect(printed.total).toBe(sum(printed.columnTotals));
        const exact = sum(rows.map(sum));
        expect(printed.total).toBe(((2n * exact + unit) / (2n * unit)) * unit);
      }),
      { seed: SEED, numRuns: 600 },
    );
  });
});
