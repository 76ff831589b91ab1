import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { decodePlan, keptPlan, type PlanJson, readPlan } from "../../src/contract/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { type Problem, writtenAt } from "../../src/reading/index.js";
import { accountOf } from "../../src/waste-accounts/index.js";
import { rowsOfPlan, whatHappened } from "../../src/weigh-in/index.js";
import { keptIn } from "../support/kept.js";
import { arePlaced, mutated, mutation, RUNS, SEED, timed, watched } from "../support/mutated-files.js";

const AFTER = new URL("../../examples/after-service/", import.meta.url);
const OLD = readFileSync(new URL("lunch.plan.json", AFTER), "utf8");
const WEIGH_IN = { file: "w.csv", text: readFileSync(new URL("lunch.weigh-in.csv", AFTER), "utf8") };
const { scenario } = loadScenarioText("lunch.yaml", readFileSync(new URL("lunch.yaml", AFTER), "utf8"));
if (scenario === null) throw new Error("the example cannot be read");
/** As an earlier version kept it, and as this one would, on lines and on one line. */
const WHOLE = keptIn(JSON.parse(OLD), scenario);
const TEXTS = [OLD, JSON.stringify(WHOLE, null, 2), JSON.stringify(WHOLE)];

/** What takes the place of a value, or of what stands elsewhere. */
const STRANGE = [
  null,
  true,
  -1,
  0.5,
  1e300,
  "",
  "x",
  "-0.5",
  "0.0001",
  "9".repeat(12),
  "2026-02-30",
  "EUR",
  [],
  {},
];
const change = fc.record({
  kind: fc.constantFrom("strange" as const, "elsewhere" as const, "gone" as const, "twice" as const),
  at: fc.nat(),
  from: fc.nat(),
  strange: fc.constantFrom(...STRANGE),
});
type Change = typeof change extends fc.Arbitrary<infer C> ? C : never;

/** Every list and object of a JSON with each of its steps. */
function* steps(json: unknown): Generator<[object, string]> {
  if (typeof json !== "object" || json === null) return;
  for (const [step, inner] of Object.entries(json)) {
    yield [json, step];
    yield* steps(inner);
  }
}

/** A JSON with some of its values changed, each anywhere in what the changes before it left. */
function changed(text: string, changes: readonly Change[]): string {
  const json: unknown = JSON.parse(text);
  for (const { kind, at, from, strange } of changes) {
    const all = [...steps(json)];
    const [within, step] = all[at % all.length] ?? [{}, ""];
    const [source, key] = all[from % all.length] ?? [{}, ""];
    if (kind === "gone" && !Array.isArray(within)) Reflect.deleteProperty(within, step);
    else if (Array.isArray(within) && (kind === "gone" || kind === "twice"))
      within.splice(
        Number(step),
        kind === "gone" ? 1 : 0,
        ...(kind === "gone" ? [] : [within[Number(step)]]),
      );
    else
      Reflect.set(within, step, kind === "elsewhere" ? structuredClone(Reflect.get(source, key)) : strange);
  }
  return JSON.stringify(json, null, text.includes("\n") ? 2 : 0);
}

/** Holds a problem of a sound JSON to the place of what its pointer leads to, or of what is around that. */
function arePointed(text: string, json: unknown, problems: readonly Problem[]): void {
  const lines = text.split(text.includes("\n") ? "\n" : "\r");
  for (const { line, column, what } of problems) {
    const steps = (/^(\/.*?): /.exec(what)?.[1] ?? "").split("/").slice(1);
    const path = steps.map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
    let value = json;
    for (const step of path) {
      const inner = writtenAt(value, [Array.isArray(value) ? Number(step) : step]);
      if (inner === undefined) break;
      value = inner;
    }
    const first = JSON.stringify(value)[0];
    const found = lines[line - 1]?.replace(/^\uFEFF/, "")[column - 1];
    // A number may be written otherwise than it is printed.
    if (typeof value === "number") expect(found, what).toMatch(/[-0-9]/);
    else expect(found, what).toBe(first);
  }
}

/** What a text is as JSON; undefined where it is none. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return undefined;
  }
}

/** Where a text stops being JSON, as the engine tells it; null where it does not. */
function engineEnd(text: string): number | null {
  try {
    JSON.parse(text);
    return text.length;
  } catch (error) {
    const { message } = error instanceof SyntaxError ? error : { message: "" };
    if (/end of JSON/.test(message)) return text.length;
    const position = /at position (\d+)/.exec(message)?.[1];
    return position === undefined ? null : Number(position);
  }
}

/** The engine tells a place inside a number or an escape, we its beginning. */
const IN_A_TOKEN = 30;

/** Holds the place of what is no JSON to what the engine tells of the text, and of the text before it. */
function isBrokenAt(text: string, { line, column }: Problem): void {
  const sound = text.replace(/^\uFEFF/, "");
  const lines = sound.split(sound.includes("\n") ? "\n" : "\r");
  const offset = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
  const told = engineEnd(sound) ?? offset;
  expect(told).toBeGreaterThanOrEqual(offset);
  expect(told).toBeLessThan(offset + IN_A_TOKEN);
  expect(engineEnd(sound.slice(0, offset))).toBe(offset);
}

let read = 0;
let refused = 0;

function isReadOrTold(text: string): void {
  if (scenario === null) throw new Error("no scenario");
  const source = { file: "p.json", text };
  const json = parsed(text);
  const kept = timed(text, () => keptPlan(source, scenario, "Do this"));
  const printed = timed(text, () => readPlan(source, "Do this"));
  for (const found of [kept, printed]) {
    if ("plan" in found) {
      read++;
      continue;
    }
    refused++;
    const { problems } = found;
    expect(problems.length).toBeGreaterThan(0);
    arePlaced(text, problems);
    if (json === undefined) {
      const [only] = problems;
      expect(problems.length).toBe(1);
      if (only !== undefined) isBrokenAt(text, only);
    } else arePointed(text, json, problems);
  }
  if ("plan" in kept) canBeWorkedWith(kept.plan);
  if ("plan" in printed) accountOf(decodePlan(printed.plan), "it", "plan");
}

function canBeWorkedWith(plan: PlanJson): void {
  if (scenario === null) return;
  rowsOfPlan(plan, scenario, "p.json");
  const { happened, problems } = whatHappened(plan, scenario, WEIGH_IN, "p.json");
  expect(happened !== null || problems.length > 0).toBe(true);
}

describe("a mutated plan as JSON is read to its end or refused with places,", {
  timeout: 60_000 + 200 * RUNS,
}, () => {
  const sayWhatItTook = watched();
  afterAll(() => {
    sayWhatItTook();
    console.info(`${read} read, ${refused} refused`);
  });
  const options = { seed: SEED, numRuns: RUNS };

  it("its text changed", () => {
    const mutations = fc.array(mutation, { minLength: 1, maxLength: 4 });
    const property = fc.property(fc.constantFrom(...TEXTS), mutations, (text, by) =>
      isReadOrTold(mutated(text, by)),
    );
    fc.assert(property, options);
  });

  it("its values changed", () => {
    const changes = fc.array(change, { minLength: 1, maxLength: 3 });
    const property = fc.property(fc.constantFrom(...TEXTS), changes, (text, by) =>
      isReadOrTold(changed(text, by)),
    );
    fc.assert(property, options);
    expect(refused).toBeGreaterThan(RUNS / 2);
  });
});
