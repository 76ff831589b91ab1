import fc from "fast-check";
import { expect } from "vitest";
import { type Problem, problemText } from "../../src/reading/index.js";

/** So many mutated files of each kind. */
export const RUNS = Number(process.env.FUZZ_RUNS ?? 60);
export const SEED = Number(process.env.FUZZ_SEED ?? 20261130);
console.info(`mutated files: seed ${SEED}, ${RUNS} runs each`);

/** In the long run, each file is to be answered in so long. */
const MOST_MS = 2_000;
const IS_LONG = process.env.FUZZ_RUNS !== undefined;
/** Resident memory may grow by so much over all of a run. */
const MOST_BYTES = 500_000_000;

const watch = { startBytes: 0, mostBytes: 0, slowestMs: 0, slowest: "" };

/** From here on what reading takes is watched; what is given back says it, and holds memory to its limit. */
export function watched(): () => void {
  Object.assign(watch, { startBytes: process.memoryUsage.rss(), mostBytes: 0, slowestMs: 0, slowest: "" });
  return () => {
    const grown = watch.mostBytes - watch.startBytes;
    console.info(
      `slowest ${watch.slowestMs.toFixed(0)} ms; memory grew by ${(grown / 1e6).toFixed(0)} MB; slowest file:`,
      JSON.stringify(watch.slowest.slice(0, 300)),
    );
    expect(grown).toBeLessThan(MOST_BYTES);
  };
}

/** Works on a text, held to its time in the long run. */
export function timed<T>(text: string, work: () => T): T {
  const began = performance.now();
  const done = work();
  const ms = performance.now() - began;
  watch.mostBytes = Math.max(watch.mostBytes, process.memoryUsage.rss());
  if (ms > watch.slowestMs)
    Object.assign(watch, { slowestMs: ms, slowest: `${expect.getState().currentTestName}: ${text}` });
  if (IS_LONG) expect(ms).toBeLessThan(MOST_MS);
  return done;
}

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

/** One change of a text, by hand, machine or enemy. */
export const mutation = fc.record({
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
export type Mutation = typeof mutation extends fc.Arbitrary<infer M> ? M : never;

/** A text with these changes, one after the other. */
export function mutated(text: string, mutations: readonly Mutation[]): string {
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

/** Holds problems to a place in the text, and to words that can be printed. */
export function arePlaced(text: string, problems: readonly Problem[]): void {
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
}

/** Reads what was made of each text: it may be refused, with a place in the file and words for each reason, never thrown. */
export function readsAll(
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
      const { value, problems } = timed(text, () => read(text));
      if (value === null) expect(problems.length).toBeGreaterThan(0);
      arePlaced(text, problems);
    },
  );
  fc.assert(property, { seed: SEED, numRuns: RUNS, examples: kept.map(([text, by]) => [text, by, "\n"]) });
}
