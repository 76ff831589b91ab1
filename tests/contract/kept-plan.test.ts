import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { decodePlan, keptPlan, readPlan } from "../../src/contract/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { accountOf } from "../../src/waste-accounts/index.js";
import { rowsOfPlan, whatHappened } from "../../src/weigh-in/index.js";
import { keptIn } from "../support/kept.js";

const AFTER = new URL("../../examples/after-service/", import.meta.url);
const TEXT = readFileSync(new URL("lunch.plan.json", AFTER), "utf8");
const WEIGH_IN = { file: "w.csv", text: readFileSync(new URL("lunch.weigh-in.csv", AFTER), "utf8") };
const { scenario } = loadScenarioText("lunch.yaml", readFileSync(new URL("lunch.yaml", AFTER), "utf8"));
if (scenario === null) throw new Error("the example cannot be read");

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
const PLAN = JSON.parse(TEXT) as { [key: string]: Json };

function problems(text: string): string[] {
  if (scenario === null) return [];
  const read = keptPlan({ file: "p.json", text }, scenario, "Do this");
  const found = "problems" in read ? read.problems : [];
  return found.map(({ line, column, what, remedy }) => `${line}:${column}: ${what}. ${remedy}`);
}

/** The plan with the text of one of its lines changed. */
function rewritten(before: string, after: string): string {
  expect(TEXT).toContain(before);
  return TEXT.replace(before, after);
}

describe("a kept plan", () => {
  it("of an earlier version is read, with what was added since worked out", () => {
    expect(PLAN).not.toHaveProperty("waste");
    expect(problems(TEXT)).toEqual([]);
    expect(keptIn(PLAN, scenario)?.waste.counted).toMatch(/^\d/);
  });

  it("is told where it is no JSON", () => {
    expect(problems("")).toEqual(["1:1: this file is empty, and no plan. Do this"]);
    const [cut = ""] = problems(TEXT.slice(0, 5000));
    expect(cut).toMatch(/^\d+:\d+: from here on this is no JSON, and no plan\. Do this$/);
    expect(Number(cut.split(":")[0])).toBe(TEXT.slice(0, 5000).split("\n").length);
  });

  it("is told by pointer, line and column what cannot be so", () => {
    const line = TEXT.split("\n").findIndex((each) => each.includes('"weight": "5250"')) + 1;
    const text = rewritten('"weight": "5250"', '"weight": "-5250"');
    expect(problems(text)).toEqual([
      `${line}:17: /purchases/0/weight: this is not a weight in grams as text, 0 or more and to the milligram, such as "12.5". Do this`,
    ]);
  });

  it("is told where its weights do not close, however plausible each is", () => {
    expect(problems(rewritten('"weight": "5250"', '"weight": "1"'))).toEqual([
      expect.stringMatching(/^\d+:\d+: \/purchases: of the item beet, 5249 g are too much/),
    ]);
  });

  it.each([
    ["another scenario's", { ...PLAN, scenario: "Another" }, /the plan is of "Another"/],
    [
      "no plan but a proof",
      { ...PLAN, outcome: { ...(PLAN.outcome as object), kind: "infeasible" } },
      /holds no plan/,
    ],
    ["a list", [PLAN], /this is not a group of fields/],
    ["nothing", null, /this is not a group of fields/],
  ])("is told where it is %s", (_, json, said) => {
    expect(problems(JSON.stringify(json)).join("\n")).toMatch(said);
  });
});

/** Every value of a JSON with its path. */
function* places(json: Json, path: readonly (string | number)[] = []): Generator<(string | number)[]> {
  if (path.length > 0) yield [...path];
  if (json === null || typeof json !== "object") return;
  const entries = Array.isArray(json) ? json.entries() : Object.entries(json);
  for (const [key, value] of entries) yield* places(value, [...path, key]);
}

function replaced(json: Json, [step, ...rest]: readonly (string | number)[], value: Json | undefined): Json {
  if (step === undefined) return value ?? null;
  const copy = (Array.isArray(json) ? [...json] : { ...(json as object) }) as {
    [key: string | number]: Json;
  };
  if (rest.length > 0) copy[step] = replaced(copy[step] ?? null, rest, value);
  else if (value === undefined) delete copy[step];
  else copy[step] = value;
  return copy as Json;
}

/** All changes with KEPT_PLANS=all; else every eighth. */
const EACH = process.env.KEPT_PLANS === "all" ? 1 : 8;
let turn = 0;
const isTaken = () => turn++ % EACH === 0;

const STRANGE: readonly (Json | undefined)[] = [
  undefined,
  null,
  -1,
  1e300,
  "",
  "x",
  "-0.5",
  "9".repeat(12),
  [],
  {},
];

describe("a kept plan with one value changed", () => {
  it("is either told of or can be worked with: nothing throws", () => {
    let refused = 0;
    let read = 0;
    for (const path of places(PLAN)) {
      for (const value of STRANGE) {
        if (!isTaken()) continue;
        const json = replaced(PLAN, path, value);
        const plan = keptIn(json, scenario);
        if (plan === null) refused++;
        else {
          read++;
          expect(rowsOfPlan(plan, scenario, "p.json")).toBeInstanceOf(Array);
          const { happened, problems: gaps } = whatHappened(plan, scenario, WEIGH_IN, "p.json");
          expect(happened !== null || gaps.length > 0).toBe(true);
        }
      }
    }
    expect(refused).toBeGreaterThan(3_000 / EACH);
    expect(read).toBeGreaterThan(100 / EACH);
  }, 120_000);
});

describe("a plan as JSON", () => {
  it("with one value changed is either told of or accounted for: nothing throws", () => {
    const plan = keptIn(PLAN, scenario);
    const whole = JSON.parse(JSON.stringify({ ...plan, asked: undefined })) as Json;
    const asked = JSON.parse(JSON.stringify(plan?.asked)) as Json;
    let refused = 0;
    let read = 0;
    for (const path of places(whole)) {
      for (const value of [...STRANGE, "donation", "given away", "EUR", "2026-02-30"]) {
        if (!isTaken()) continue;
        const json = { ...(replaced(whole, path, value) as object), asked };
        const found = readPlan({ file: "p.json", text: JSON.stringify(json) }, "Plan again");
        if ("problems" in found) refused++;
        else {
          read++;
          expect(accountOf(decodePlan(found.plan), "it", "plan").currency).toBe("EUR");
        }
      }
    }
    expect(refused).toBeGreaterThan(3_000 / EACH);
    expect(read).toBeGreaterThan(100 / EACH);
  }, 120_000);

  it("of an earlier version is told of, with all that it lacks", () => {
    const read = readPlan({ file: "p.json", text: TEXT }, "Plan again");
    expect("problems" in read && read.problems.map(({ what }) => what.split(":")[0])).toEqual(
      expect.arrayContaining(["/waste", "/asked"]),
    );
  });
});
