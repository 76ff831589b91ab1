import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readScenario } from "../../src/kitchen/index.js";
import { resolveScenario } from "../../src/scenario/index.js";
import { NO_TABLES } from "../support/resolving.js";
import { TWO_MARROW_DISHES } from "../support/two-marrow-dishes.js";

const SEED = 7919;
const RUNS = 250;
console.info(`damaged files: seed ${SEED}, ${RUNS} runs each`);

const LINES = TWO_MARROW_DISHES.split("\n");
const JUNK = [
  "",
  "0",
  "-1",
  "no",
  "[]",
  "{}",
  "x",
  "1 / 0",
  "0 g",
  "100 %",
  "*a",
  "&a",
  "~",
  "9999-99-99",
  "a: b",
  "{a: {b: c}}",
];

/** Whatever was done to the file: an answer, never a throw; a scenario just where there is no problem. */
function isAnswered(text: string): void {
  const { scenario, problems } = resolveScenario(readScenario({ file: "t.yaml", text }), NO_TABLES);
  expect(scenario === null).toBe(problems.length > 0);
  const lines = text.split("\n");
  let [line, column] = [1, 1];
  for (const problem of problems) {
    expect(problem.what).not.toMatch(/undefined|NaN|\[object/);
    expect(problem.remedy).not.toMatch(/undefined|NaN|\[object|: $/);
    expect(problem.line > line || (problem.line === line && problem.column >= column)).toBe(true);
    [line, column] = [problem.line, problem.column];
    expect(line).toBeLessThanOrEqual(lines.length);
  }
}

describe("a damaged scenario file", () => {
  it("with lines lost is answered", () => {
    const property = fc.property(
      fc.uniqueArray(fc.nat(LINES.length - 1), { minLength: 1, maxLength: 4 }),
      (lost) => {
        isAnswered(LINES.filter((_, index) => !lost.includes(index)).join("\n"));
      },
    );
    fc.assert(property, { seed: SEED, numRuns: RUNS });
  });

  it("with values put in one another's place is answered", () => {
    const damage = fc.record({ at: fc.nat(), junk: fc.constantFrom(...JUNK) });
    const property = fc.property(fc.array(damage, { minLength: 1, maxLength: 3 }), (damages) => {
      const text = damages.reduce((left, { at, junk }) => {
        const values = [...left.matchAll(/(?<=: )[^\s{[][^,}\n]*/g)];
        const hit = values[at % values.length];
        return hit === undefined
          ? left
          : left.slice(0, hit.index) + junk + left.slice(hit.index + hit[0].length);
      }, TWO_MARROW_DISHES);
      isAnswered(text);
    });
    fc.assert(property, { seed: SEED, numRuns: RUNS });
  });

  it("with a letter changed anywhere is answered", () => {
    const letters = fc.constantFrom(
      "a",
      "0",
      ":",
      "{",
      "}",
      "[",
      "]",
      ",",
      "'",
      '"',
      "\n",
      "\t",
      "#",
      "-",
      "%",
      "é",
    );
    const property = fc.property(fc.nat(TWO_MARROW_DISHES.length - 1), letters, (at, letter) => {
      isAnswered(TWO_MARROW_DISHES.slice(0, at) + letter + TWO_MARROW_DISHES.slice(at + 1));
    });
    fc.assert(property, { seed: SEED, numRuns: RUNS });
  });
});
