import { type Money, total, type Weight } from "../quantity/index.js";

/** A table with totals both ways, as it is printed. */
export interface PrintedTable<T> {
  readonly cells: readonly (readonly T[])[];
  readonly rowTotals: readonly T[];
  readonly columnTotals: readonly T[];
  readonly total: T;
}

/**
 * Rounds a table to multiples of a step so that every row and every column adds up to its printed total and
 * both sets of totals to the grand total, which is the exact one rounded half up. Every figure is the step below
 * or above its exact value, and a figure that is a whole step already stays. Rows are equally long.
 *
 * Method: controlled rounding by cycles (L. H. Cox, "A constructive procedure for unbiased controlled rounding",
 * JASA 82, 1987, cited from memory), without its random choice: each cycle carries one figure to its nearer step.
 */
export function printedTable<T extends Weight | Money>(
  rows: readonly (readonly T[])[],
  step: T,
): PrintedTable<T> {
  const width = rows[0]?.length ?? 0;
  if (rows.some((row) => row.length !== width)) throw new RangeError("rows of a table differ in length");
  const grid = withTotals(rows);
  const unit = step as bigint;
  roundFigure(grid, rows.length, width, unit);
  for (let row = 0; row <= rows.length; row++) {
    for (let column = 0; column <= width; column++) roundFigure(grid, row, column, unit);
  }
  const cells = grid.slice(0, -1).map((row) => row.slice(0, -1) as T[]);
  return {
    cells,
    rowTotals: cells.map((row) => total(row)),
    columnTotals: Array.from({ length: width }, (_, column) => total(cells.map((row) => row[column] as T))),
    total: total(cells.flat()),
  };
}

/** The rows with their totals negated as a last column and row, so that every row and column adds up to 0. */
function withTotals(rows: readonly (readonly bigint[])[]): bigint[][] {
  const closed = rows.map((row) => [...row, -row.reduce((sum, cell) => sum + cell, 0n)]);
  const width = (rows[0]?.length ?? 0) + 1;
  const last = Array.from({ length: width }, (_, column) =>
    closed.reduce((sum, row) => sum - (row[column] ?? 0n), 0n),
  );
  return [...closed, last];
}

interface Cell {
  readonly row: number;
  readonly column: number;
}

/** Carries one figure to its nearer step along cycles of figures that are still between steps. */
function roundFigure(grid: bigint[][], row: number, column: number, unit: bigint): void {
  const start: Cell = { row, column };
  const first = excess(at(grid, start), unit);
  const up = 2n * first >= unit;
  while (excess(at(grid, start), unit) !== 0n) {
    const cycle = cycleThrough(grid, start, unit);
    const room = cycle.map((cell, index) => {
      const above = excess(at(grid, cell), unit);
      return (index % 2 === 0) === up ? unit - above : above;
    });
    let shift = unit;
    for (const amount of room) if (amount < shift) shift = amount;
    cycle.forEach((cell, index) => {
      const line = grid[cell.row] as bigint[];
      line[cell.column] = at(grid, cell) + ((index % 2 === 0) === up ? shift : -shift);
    });
  }
}

/**
 * A closed walk along rows and columns by turns, from a figure through others that are between steps. There is
 * always one: rows and columns add up to 0, so none has a single such figure.
 */
function cycleThrough(grid: readonly (readonly bigint[])[], start: Cell, unit: bigint): Cell[] {
  const between = (cell: Cell) => excess(at(grid, cell), unit) !== 0n;
  const rowsSeen = new Set([start.row]);
  const columnsSeen = new Set<number>();
  let paths: Cell[][] = [[start]];
  while (paths.length > 0) {
    const alongRows = paths.flatMap((path) => {
      const { row, column } = path.at(-1) as Cell;
      return columnsOf(grid, row)
        .map((next): Cell => ({ row, column: next }))
        .filter((cell) => cell.column !== column && !columnsSeen.has(cell.column) && between(cell))
        .filter((cell) => path.length > 1 || cell.column !== start.column)
        .map((cell) => {
          columnsSeen.add(cell.column);
          return [...path, cell];
        });
    });
    const closed = alongRows.find((path) => path.length > 2 && path.at(-1)?.column === start.column);
    if (closed !== undefined) return closed;
    paths = alongRows.flatMap((path) => {
      const { column } = path.at(-1) as Cell;
      return grid
        .map((_, row): Cell => ({ row, column }))
        .filter((cell) => !rowsSeen.has(cell.row) && between(cell))
        .map((cell) => {
          rowsSeen.add(cell.row);
          return [...path, cell];
        });
    });
  }
  throw new RangeError("the table's rows or columns do not add up");
}

function columnsOf(grid: readonly (readonly bigint[])[], row: number): number[] {
  return (grid[row] ?? []).map((_, column) => column);
}

function at(grid: readonly (readonly bigint[])[], { row, column }: Cell): bigint {
  return grid[row]?.[column] ?? 0n;
}

/** How far an amount is above the step at or below it. */
function excess(amount: bigint, unit: bigint): bigint {
  return ((amount % unit) + unit) % unit;
}
