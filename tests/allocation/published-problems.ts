import { type Written, type WrittenRow, writeQuestion } from "../support/write-model.js";
import type { AskedProblem } from "./engine-spec.js";

interface Published extends Written {
  readonly optimum: number;
  readonly source: string;
}

/** Every way to cut the widths out of one roll so that no further width fits. */
function fullestPatterns(roll: number, widths: readonly number[]): number[][] {
  const [width, ...rest] = widths;
  if (width === undefined) return [[]];
  const most = Math.floor(roll / width);
  return Array.from({ length: most + 1 }, (_, count) => most - count).flatMap((count) =>
    fullestPatterns(roll - count * width, rest)
      .map((tail) => [count, ...tail])
      .filter((pattern) => rest.length > 0 || pattern[0] === most),
  );
}

function cuttingStock(
  roll: number,
  demand: Readonly<Record<number, number>>,
): Pick<Written, "least" | "rows"> {
  const widths = Object.keys(demand)
    .map(Number)
    .sort((a, b) => b - a);
  const smallest = Math.min(...widths);
  const patterns = fullestPatterns(roll, widths).filter((pattern) => {
    const used = pattern.reduce((sum, count, index) => sum + count * (widths[index] ?? 0), 0);
    return roll - used < smallest;
  });
  const sum = (of: (pattern: number[]) => number) =>
    Object.fromEntries(patterns.map((pattern) => [pattern.join("-"), of(pattern)]));
  return {
    least: sum(() => 1),
    rows: widths.map((width, index): WrittenRow => {
      return [`width ${width}`, sum((pattern) => pattern[index] ?? 0), ">=", demand[width] ?? 0];
    }),
  };
}

const KNAPSACK_ROWS: readonly (readonly [side: number, ...weights: number[]])[] = [
  [80, 8, 12, 13, 64, 22, 41],
  [96, 8, 12, 13, 75, 22, 41],
  [20, 3, 6, 4, 18, 6, 4],
  [36, 5, 10, 8, 32, 6, 12],
  [44, 5, 13, 8, 42, 6, 20],
  [48, 5, 13, 8, 48, 6, 20],
  [10, 0, 0, 0, 0, 8, 0],
  [18, 3, 0, 4, 0, 8, 0],
  [22, 3, 2, 4, 0, 8, 4],
  [24, 3, 2, 4, 8, 8, 4],
];

const PUBLISHED: readonly Published[] = [
  {
    name: "glass works",
    source: "Hillier and Lieberman, Introduction to Operations Research, ch. 3 (Wyndor Glass), from memory",
    optimum: 36,
    most: { doors: 3, windows: 5 },
    rows: [
      ["plant 1", { doors: 1 }, "<=", 4],
      ["plant 2", { windows: 2 }, "<=", 12],
      ["plant 3", { doors: 3, windows: 2 }, "<=", 18],
    ],
  },
  {
    name: "diet",
    source: "Fourer, Gay and Kernighan, AMPL, ch. 2: data read, the cost 88.2 from memory",
    optimum: 88.2,
    least: { BEEF: 3.19, CHK: 2.59, FISH: 2.29, HAM: 2.89, MCH: 1.89, MTL: 1.99, SPG: 1.99, TUR: 2.49 },
    rows: [
      ["A", { BEEF: 60, CHK: 8, FISH: 8, HAM: 40, MCH: 15, MTL: 70, SPG: 25, TUR: 60 }, ">=", 700],
      ["C", { BEEF: 20, CHK: 10, FISH: 40, HAM: 35, MCH: 30, MTL: 50, SPG: 20, TUR: 20 }, ">=", 700],
      ["B1", { BEEF: 10, CHK: 20, FISH: 15, HAM: 35, MCH: 15, MTL: 15, SPG: 25, TUR: 15 }, ">=", 700],
      ["B2", { BEEF: 15, CHK: 20, FISH: 10, HAM: 10, MCH: 15, MTL: 15, SPG: 15, TUR: 10 }, ">=", 700],
    ],
  },
  {
    name: "rolling mill, with upper bounds",
    source: "Fourer, Gay and Kernighan, AMPL, ch. 1 (bands and coils), from memory",
    optimum: 192_000,
    most: { bands: 25, coils: 30 },
    rows: [["hours", { bands: 1 / 200, coils: 1 / 140 }, "<=", 40]],
    between: { bands: [0, 6000], coils: [0, 4000] },
  },
  {
    name: "cases by rail, degenerate",
    source:
      "Dantzig, Linear Programming and Extensions (1963), ch. 3.3, as in the GAMS model trnsport, from memory",
    optimum: 153.675,
    least: { sn: 0.225, sc: 0.153, st: 0.162, dn: 0.225, dc: 0.162, dt: 0.126 },
    rows: [
      ["Seattle", { sn: 1, sc: 1, st: 1 }, "<=", 350],
      ["San Diego", { dn: 1, dc: 1, dt: 1 }, "<=", 600],
      ["New York", { sn: 1, dn: 1 }, ">=", 325],
      ["Chicago", { sc: 1, dc: 1 }, ">=", 300],
      ["Topeka", { st: 1, dt: 1 }, ">=", 275],
    ],
  },
  {
    name: "alloy blend, with an equality, a range and upper bounds",
    source: "GLPK 5.0, example plan.mod: data read, the cost 296.217 from memory of its reference manual",
    optimum: 296.2166065,
    least: { bin1: 0.03, bin2: 0.08, bin3: 0.17, bin4: 0.12, bin5: 0.15, alum: 0.21, silicon: 0.38 },
    rows: [
      ["yield", { bin1: 1, bin2: 1, bin3: 1, bin4: 1, bin5: 1, alum: 1, silicon: 1 }, "=", 2000],
      [
        "fe",
        { bin1: 0.15, bin2: 0.04, bin3: 0.02, bin4: 0.04, bin5: 0.02, alum: 0.01, silicon: 0.03 },
        "<=",
        60,
      ],
      ["cu", { bin1: 0.03, bin2: 0.05, bin3: 0.08, bin4: 0.02, bin5: 0.06, alum: 0.01 }, "<=", 100],
      ["mn", { bin1: 0.02, bin2: 0.04, bin3: 0.01, bin4: 0.02, bin5: 0.02 }, "<=", 40],
      ["mg", { bin1: 0.02, bin2: 0.03, bin5: 0.01 }, "<=", 30],
      ["al", { bin1: 0.7, bin2: 0.75, bin3: 0.8, bin4: 0.75, bin5: 0.8, alum: 0.97 }, ">=", 1500],
      [
        "si",
        { bin1: 0.02, bin2: 0.06, bin3: 0.08, bin4: 0.12, bin5: 0.02, alum: 0.01, silicon: 0.97 },
        250,
        300,
      ],
    ],
    between: { bin1: [0, 200], bin2: [0, 2500], bin3: [400, 800], bin4: [100, 700], bin5: [0, 1500] },
  },
  {
    name: "a simplex that cycles",
    source:
      "Beale, Cycling in the dual simplex algorithm, Naval Research Logistics Quarterly 2 (1955), from memory",
    optimum: -1.25,
    least: { x4: -0.75, x5: 20, x6: -0.5, x7: 6 },
    rows: [
      ["first", { x4: 0.25, x5: -8, x6: -1, x7: 9 }, "<=", 0],
      ["second", { x4: 0.5, x5: -12, x6: -0.5, x7: 3 }, "<=", 0],
      ["third", { x6: 1 }, "<=", 1],
    ],
  },
  {
    name: "a bent cube",
    source: "Klee and Minty (1972) in the numbers of Chvatal, Linear Programming, ch. 4, from memory",
    optimum: 10_000,
    most: { x1: 100, x2: 10, x3: 1 },
    rows: [
      ["first", { x1: 1 }, "<=", 1],
      ["second", { x1: 20, x2: 1 }, "<=", 100],
      ["third", { x1: 200, x2: 20, x3: 1 }, "<=", 10_000],
    ],
  },
  {
    name: "two whole numbers, not the rounded ones",
    source: "Bradley, Hax and Magnanti, Applied Mathematical Programming (1977), ch. 9, from memory",
    optimum: 40,
    most: { x1: 5, x2: 8 },
    rows: [
      ["first", { x1: 1, x2: 1 }, "<=", 6],
      ["second", { x1: 5, x2: 9 }, "<=", 45],
    ],
    whole: true,
  },
  {
    name: "knapsack with ten limits",
    source: "OR-Library, mknap1, problem 1 (Petersen 1967): data and optimum read",
    optimum: 3800,
    most: { x0: 100, x1: 600, x2: 1200, x3: 2400, x4: 500, x5: 2000 },
    rows: KNAPSACK_ROWS.map(
      ([side, ...weights], row): WrittenRow => [
        `limit ${row + 1}`,
        Object.fromEntries(weights.map((weight, index) => [`x${index}`, weight])),
        "<=",
        side,
      ],
    ),
    whole: true,
    between: Object.fromEntries(Array.from({ length: 6 }, (_, index) => [`x${index}`, [0, 1] as const])),
  },
  {
    name: "cutting rolls of 110",
    source: "Fourer, Gay and Kernighan, AMPL, ch. 15 (cutting stock): data and optimum from memory",
    optimum: 47,
    ...cuttingStock(110, { 20: 48, 45: 35, 50: 24, 55: 10, 75: 8 }),
    whole: true,
  },
];

/** Problems of which the optimum is published, typed in. */
export const publishedProblems: readonly AskedProblem[] = PUBLISHED.map(
  ({ optimum, source, ...written }) => ({
    name: written.name,
    source,
    question: writeQuestion(written),
    expected: optimum,
  }),
);
