import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { PlanJson } from "../../src/contract/index.js";
import { readHappened, readTestCard, type Scenario } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { type Problem, problemText } from "../../src/reading/index.js";
import { whatHappened, writeWeighIn } from "../../src/weigh-in/index.js";
import { loadYieldTables, readYieldTables, readYieldTests, settleTestCard } from "../../src/yields/index.js";
import { TWO_EVENINGS, WAITING_POT } from "../support/scenarios.js";
import { VEAL } from "../support/test-cards.js";
import { TWO_MARROW_DISHES } from "../support/two-marrow-dishes.js";
import { rowsToWeigh } from "../support/weighing.js";

const RUNS = Number(process.env.FUZZ_RUNS ?? 60);
const SEED = Number(process.env.FUZZ_SEED ?? 20261130);
console.info(`mutated files: seed ${SEED}, ${RUNS} runs each`);

/** What a hand, a spreadsheet, a copy from the web or an enemy puts into a file. */
const JUNK = [
  "constructor",
  "__proto__",
  "toString:",
  "\0",
  "\u001b[2J",
  "\u202e",
  "\u200b",
  "\ufeff",
  "\ufffd",
  "\ud800",
  "\u00a0",
  "\t",
  "\n",
  "\r",
  "\r\n",
  "\n\n",
  " ",
  "  - ",
  "- ",
  ": ",
  "{",
  "}",
  "[",
  "]",
  "[]",
  "{}",
  '"',
  "'",
  "''",
  '""',
  "#",
  "&a ",
  "*a",
  "<<: *a",
  "!x ",
  "|\n",
  ">\n",
  "---\n",
  "...\n",
  "%",
  "%YAML 1.2\n",
  "@",
  "`",
  ",",
  ";",
  ",,",
  "0",
  "-1",
  "1e9",
  "999999999999",
  "0.0000000001",
  "1/0",
  "Inf",
  "null",
  "~",
  "yes",
  "9999-12-31",
  "2026-02-30",
  "0000-00-00",
  "g",
  " kg",
  " cooked",
  " to ",
  " of ",
  "each",
  "from 2: 1 each",
  "=1+1",
  "\u0441\u043eup",
  "\uff11",
  "é",
  "中",
  "🥕",
  "[".repeat(40),
  "a".repeat(130),
  " ".repeat(600),
  "9".repeat(60),
  "- [x]\n".repeat(20),
  "&b [*b]",
  "? x\n",
];

const LINE_ENDS = ["\n", "\n", "\r\n", "\r"] as const;

const mutation = fc.record({
  kind: fc.constantFrom(
    "cut" as const,
    "repeat" as const,
    "junk" as const,
    "move" as const,
    "instead" as const,
  ),
  at: fc.nat(),
  length: fc.integer({ min: 1, max: 60 }),
  to: fc.nat(),
  junk: fc.constantFrom(...JUNK),
});
type Mutation = typeof mutation extends fc.Arbitrary<infer M> ? M : never;

function mutated(text: string, mutations: readonly Mutation[]): string {
  return mutations.reduce((left, { kind, at: anywhere, length, to: elsewhere, junk }) => {
    const at = anywhere % (left.length + 1);
    const piece = left.slice(at, at + length);
    const without = left.slice(0, at) + left.slice(at + length);
    const to = elsewhere % (without.length + 1);
    if (kind === "cut") return without;
    if (kind === "repeat") return left.slice(0, at) + piece + left.slice(at);
    if (kind === "move") return without.slice(0, to) + piece + without.slice(to);
    return left.slice(0, at) + junk + left.slice(kind === "junk" ? at : at + length);
  }, text);
}

/** Reads what was made of each text: it may be refused, with a place in the file and words for each reason, never thrown. */
function readsAll(
  texts: readonly string[],
  read: (text: string) => { readonly value: unknown; readonly problems: readonly Problem[] },
  kept: readonly (readonly [string, Mutation[]])[] = [],
): void {
  const property = fc.property(
    fc.constantFrom(...texts),
    fc.array(mutation, { minLength: 1, maxLength: 4 }),
    fc.constantFrom(...LINE_ENDS),
    (sound, mutations, lineEnd) => {
      const text = mutated(sound.replaceAll("\n", lineEnd), mutations);
      const { value, problems } = read(text);
      if (value === null) expect(problems.length).toBeGreaterThan(0);
      const lines = text.split(text.includes("\n") ? "\n" : "\r");
      for (const problem of problems) {
        const { line, column, what, remedy } = problem;
        expect(line).toBeGreaterThanOrEqual(1);
        expect(line).toBeLessThanOrEqual(lines.length);
        expect(column).toBeGreaterThanOrEqual(1);
        expect(column).toBeLessThanOrEqual((lines[line - 1]?.length ?? 0) + 2);
        for (const words of [what, remedy]) expect(words).not.toMatch(/undefined|NaN|\[object|^$/);
        expect(problemText(problem)).not.toMatch(/[\p{Cc}\p{Cs}\u200b\u202e\ufeff]/u);
        expect(problemText(problem).length).toBeLessThan(3_000);
      }
    },
  );
  fc.assert(property, { seed: SEED, numRuns: RUNS, examples: kept.map(([text, by]) => [text, by, "\n"]) });
}

const TESTS = `item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class
marrow,test,dice,Field & Co,2026-10-01,1,3,3000,1,dice,2400,food
marrow,test,dice,Field & Co,2026-10-01,1,3,3000,1,peel,540,inedible
marrow,test,dice,Field & Co,2026-10-01,1,3,3000,1,loss,60,loss
`;
const HAPPENED = `before: Friday
delivered: {marrow: 9}
cut: {Thursday: {marrow ring: 3.9 kg}}
covers: {Friday: 18}
can_buy: [marrow]
`;

describe("a mutated file is read to its end or refused with places:", {
  timeout: 30_000 + 100 * RUNS,
}, () => {
  const engines = new Engines();
  let planned: { readonly plan: PlanJson; readonly scenario: Scenario } | null = null;
  afterAll(() => engines.close());
  beforeAll(async () => {
    const { scenario } = loadScenarioText("t.yaml", TWO_EVENINGS);
    if (scenario === null) throw new Error("no scenario");
    planned = { scenario, plan: (await planScenario(scenario, { engines, seconds: 5 })).plan };
  });

  it("a scenario", () => {
    const demo = readFileSync("examples/demo.yaml", "utf8");
    readsAll([TWO_MARROW_DISHES, TWO_EVENINGS, WAITING_POT, demo], (text) => {
      const { scenario, problems } = loadScenarioText("t.yaml", text);
      return { value: scenario, problems };
    });
  });

  it("a test card", () => {
    // A line end inside a key that is none, which moved the places below it.
    const moved: Mutation[] = [
      { kind: "junk", at: 0, length: 1, to: 0, junk: "9".repeat(60) },
      { kind: "move", at: 0, length: 2, to: 1610485827, junk: "" },
      { kind: "cut", at: 1408519092, length: 6, to: 0, junk: "" },
      { kind: "cut", at: 0, length: 1, to: 0, junk: "" },
    ];
    const read = (text: string) => {
      const { card, problems } = settleTestCard(readTestCard({ file: "t.yaml", text }));
      return { value: card, problems };
    };
    readsAll([VEAL], read, [[VEAL, moved]]);
  });

  it("what happened since a plan", () => {
    readsAll([HAPPENED], (text) => readHappened({ file: "t.yaml", text }));
  });

  it("own yield tests", () => {
    const { tables } = loadYieldTables();
    readsAll([TESTS], (text) => {
      const { tests, problems } = readYieldTests({ file: "t.csv", text }, tables);
      return { value: tests, problems };
    });
  });

  it("a yield table", () => {
    const head = (name: string) =>
      readFileSync(`yield-tables/${name}`, "utf8").split("\n").slice(0, 12).join("\n");
    for (const name of ["items.csv", "densities.csv", "cooking.csv", "cuts.csv", "steps.csv"])
      readsAll([head(name)], (text) => {
        const { tables, problems } = readYieldTables([{ file: name, text }]);
        return { value: tables, problems: problems.filter(({ file }) => file === name) };
      });
  });

  it("a weigh-in", () => {
    if (planned === null) throw new Error("nothing planned");
    const { plan, scenario } = planned;
    const rows = rowsToWeigh(plan, scenario);
    const note = { reason: "", by: "A. B.", time: "" };
    const filled = writeWeighIn(rows, scenario, () => ({ actual: "5", note }));
    readsAll([writeWeighIn(rows, scenario), filled], (text) => {
      const { happened, problems } = whatHappened(plan, scenario, { file: "t.csv", text }, "t.plan.json");
      return { value: happened, problems };
    });
  });
});
