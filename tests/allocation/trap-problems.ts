import { type Written, writeQuestion } from "../support/write-model.js";
import type { AskedProblem } from "./engine-spec.js";

interface Trap extends Written {
  readonly expected: AskedProblem["expected"];
}

const FREE = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;

/** Each sets a trap that one solver or another has been seen to fall into, or that a translation could. */
const TRAPS: readonly Trap[] = [
  {
    name: "no plan, by a row",
    expected: "infeasible",
    least: { x: 1, y: 1 },
    rows: [
      ["at least", { x: 1, y: 1 }, ">=", 5],
      ["at most", { x: 2, y: 2 }, "<=", 9],
    ],
  },
  {
    name: "no plan, for whole numbers only",
    expected: "infeasible",
    least: { x: 1 },
    rows: [["between", { x: 1 }, 1.2, 1.8]],
    whole: true,
    between: { x: [0, 10] },
  },
  {
    name: "no plan, by bounds that cross",
    expected: "infeasible",
    least: { x: 1 },
    rows: [["at most", { x: 1 }, "<=", 9]],
    between: { x: [3, 2] },
  },
  {
    name: "no plan, by a row without terms",
    expected: "infeasible",
    least: { x: 1 },
    rows: [["nothing is enough", {}, ">=", 1]],
    between: { x: [0, 2] },
  },
  {
    name: "no plan, by a row of variables that cannot move",
    expected: "infeasible",
    least: { x: 1, y: 1 },
    rows: [["six", { x: 2 }, "=", 7]],
    between: { x: [3, 3], y: [0, 2] },
  },
  {
    name: "no end",
    expected: "unbounded",
    most: { x: 1, y: 1 },
    rows: [["apart", { x: 1, y: -1 }, "<=", 2]],
  },
  {
    name: "no end, in whole numbers",
    expected: "unbounded",
    most: { x: 1, y: 1 },
    rows: [["apart", { x: 2, y: -2 }, 1, 5]],
    whole: true,
  },
  {
    name: "no end, where HiGHS without presolve and with tight tolerances says it does not know",
    expected: "unbounded",
    most: { x: 0.25, z: 0.5 },
    rows: [
      ["not below", { x: -1.25, y: 1.25 }, "<=", 0],
      ["all of it", { z: -0.25 }, "<=", -0.25],
    ],
    between: { a: [0, 0], y: [0, 1], z: [0, 1] },
  },
  {
    name: "no end, where the presolve of HiGHS says there is no plan",
    expected: "unbounded",
    most: { x: 3, y: 1, z: -3 },
    rows: [
      ["first", { x: 1, y: -3, z: -3 }, "<=", 5],
      ["second", { x: -1, y: 2, z: 1 }, "<=", 1],
    ],
    between: { x: [-1, Number.POSITIVE_INFINITY], y: [-1, Number.POSITIVE_INFINITY], z: [-1, 4] },
  },
  {
    name: "no end in whole numbers, where HiGHS without presolve says optimal",
    expected: "unbounded",
    most: { x: -3, y: 0, z: 1 },
    rows: [
      ["first", { x: 2, y: -1, z: 3 }, ">=", -4],
      ["second", { x: -2, y: -3, z: 3 }, "<=", 2],
    ],
    whole: true,
    between: { x: [1, Number.POSITIVE_INFINITY], z: [-1, Number.POSITIVE_INFINITY] },
  },
  {
    name: "no plan in whole numbers, though without them there would be no end",
    expected: "infeasible",
    most: { x: 3, y: 3 },
    rows: [["apart", { x: 3, y: -3 }, "=", 2]],
    whole: true,
  },
  {
    name: "a range that binds below",
    expected: 4,
    least: { x: 1, y: 1 },
    rows: [["between", { x: 1, y: 2 }, 8, 12]],
  },
  {
    name: "a range that binds above",
    expected: 12,
    most: { x: 1, y: 1 },
    rows: [["between", { x: 1, y: 2 }, 8, 12]],
  },
  {
    name: "equalities alone settle it",
    expected: 5,
    least: { x: 1, y: 1 },
    rows: [
      ["sum", { x: 1, y: 1 }, "=", 5],
      ["difference", { x: 1, y: -1 }, "=", 1],
    ],
  },
  {
    name: "lower bounds below zero",
    expected: -6.5,
    least: { x: 1, y: 1 },
    rows: [["together", { x: 1, y: 2 }, ">=", -8]],
    between: { x: [-5, 5], y: [-3, 3] },
  },
  {
    name: "a whole number below zero",
    expected: -3,
    least: { x: 1 },
    rows: [["twice", { x: 2 }, ">=", -7]],
    whole: true,
    between: { x: [-5, 5] },
  },
  {
    name: "whole numbers between broken bounds",
    expected: 3,
    most: { x: 1, y: 1 },
    rows: [["together", { x: 1, y: 1 }, "<=", 9]],
    whole: true,
    between: { x: [0.5, 1.5], y: [-0.5, 2.999] },
  },
  {
    name: "a variable that cannot move, with a cost and a constant",
    expected: 27,
    least: { x: 4, y: 1 },
    constant: 10,
    rows: [["together", { x: 1, y: 1 }, ">=", 8]],
    between: { x: [3, 3], y: [0, 9] },
  },
  {
    name: "terms that repeat, and terms that cancel out but for rounding",
    expected: 4,
    least: { x: [0.5, 0.5], y: [0.1, 0.2, -0.3] },
    rows: [["together", { x: [1, 2], y: [0.3, -0.2, -0.1] }, ">=", 12]],
    between: { y: [0, 5] },
  },
  {
    name: "nothing to aim at",
    expected: 0,
    least: {},
    rows: [["together", { x: 1, y: 1 }, "=", 3]],
  },
  {
    name: "variables named as the flags of an answer",
    expected: 11,
    most: { result: 3, feasible: 2, bounded: 1 },
    rows: [["together", { result: 2, feasible: 1, bounded: 1 }, "<=", 7]],
    between: { result: [0, 2], feasible: [0, 2], bounded: [0, 2] },
  },
  {
    name: "a limit on the aim itself",
    expected: 10,
    least: { x: 2, y: 3 },
    rows: [["the aim again", { x: 2, y: 3 }, ">=", 10]],
  },
  {
    name: "a row a million times the size of its neighbour",
    expected: 5,
    most: { x: 1, y: 1 },
    rows: [
      ["small", { x: 1, y: -1 }, "<=", 1],
      ["large", { x: 1e6, y: 1e6 }, "<=", 5e6],
    ],
  },
  {
    name: "a variable without a lower bound",
    expected: -7,
    least: { x: 1 },
    rows: [["from below", { x: 1 }, ">=", -7]],
    between: { x: FREE },
  },
  {
    name: "coefficients a thousand million apart",
    expected: 1e-6,
    least: { x: 1, y: 1 },
    rows: [["together", { x: 1e6, y: 1e-3 }, ">=", 1]],
  },
  {
    name: "coefficients of a billionth and less, which say nothing",
    expected: 1,
    least: { x: 1, y: 1, z: 5e-10 },
    rows: [
      ["mostly x", { x: 1, y: 1e-9, z: 1e-12 }, ">=", 1],
      ["y and z", { y: 1, z: 1 }, "<=", 9],
    ],
    between: { y: [0, 9], z: [0, 9] },
  },
  {
    name: "presolve's enumeration, which lost the better half of the points",
    expected: -0.5,
    least: { x: 0, y: 0, z: -0.25, u: 0, v: 0 },
    rows: [
      ["equal", { u: -1, v: 0.25, x: -0.251 }, "=", -0.25],
      ["between", { y: -1.5, z: 0.001, v: -0.834 }, -4, -3],
    ],
    whole: ["y", "u", "v"],
    between: { x: [0, 1], y: [0, 2], z: [0, 2], u: [0, 1], v: [0, 3] },
  },
];

export const trapProblems: readonly AskedProblem[] = TRAPS.map(({ expected, ...written }) => ({
  name: written.name,
  source: "by hand",
  question: writeQuestion(written),
  expected,
}));
