import { describe, expect, it } from "vitest";
import { verifyDecision } from "../../../src/allocation/index.js";
import { CHECKS } from "../../../src/allocation/verify/index.js";
import { costsShown, keepLedger } from "../../../src/ledger/index.js";
import { familiesWritten } from "../../support/row-families.js";
import { type Asked, GOOD } from "./good-plan.js";
import { KEPT } from "./kept.js";
import { RULES } from "./table.js";

/** Families of variables, which have no rows of their own. */
const VARIABLES = [
  "bin",
  "buy",
  "cook",
  "cut",
  "draw",
  "give",
  "go",
  "keep",
  "keep item",
  "serve",
  "spare",
  "stay",
  "stay item",
  "stock",
  "waste",
];
/** Rows that say what waste is: they forbid nothing. */
const DEFINITIONS = ["avoidable peel", "worked needlessly"];

/** What each check says, where it says anything. */
function faultsByCheck({ decision, scenario }: Asked): Record<string, string[]> {
  const found = Object.entries(CHECKS).map(([name, check]): [string, string[]] => [
    name,
    check(decision, scenario, 0),
  ]);
  return Object.fromEntries(found.filter(([, faults]) => faults.length > 0));
}

/** Dishes over their ceilings by the ledger. */
function overCeilings({ decision, scenario }: Asked): string[] {
  return costsShown(scenario, decision, keepLedger(scenario, decision)).map(({ dish }) => dish);
}

describe("the rules of a plan", () => {
  it("are all kept by the good plan, and its ledger closes", () => {
    expect(faultsByCheck(GOOD)).toEqual({});
    expect(overCeilings(GOOD)).toEqual([]);
    // 20 g of green, a tart of 100 g, and a quarter of 202 g of hash.
    expect(keepLedger(GOOD.scenario, GOOD.decision).weights.givenAway).toBe(170_500n);
  });

  it.each(RULES.map((rule) => [rule.rule, rule] as const))("%s", (_, { check, fault, broken }) => {
    const plan = broken(GOOD);
    const found = faultsByCheck(plan);
    if (check === "ceiling") {
      expect(found).toEqual({});
      expect(overCeilings(plan)).toEqual([expect.stringMatching(fault)]);
      return;
    }
    expect(Object.keys(found)).toEqual([check]);
    expect(found[check]).toContainEqual(expect.stringMatching(fault));
    expect(verifyDecision(plan.decision, plan.scenario)).toEqual(found[check]);
  });

  it.each(KEPT)("are kept by a plan with %s", (_, change) => {
    expect(faultsByCheck(change(GOOD))).toEqual({});
  });

  it("have a row for every check, and for every family of rows of the model", () => {
    const checks = new Set(RULES.map(({ check }) => check));
    expect([...checks].sort()).toEqual([...Object.keys(CHECKS), "ceiling"].sort());
    const families = new Set([...RULES.flatMap((rule) => rule.families), ...VARIABLES, ...DEFINITIONS]);
    expect([...families].sort()).toEqual(familiesWritten());
  });

  it("have each a name of its own", () => {
    expect(new Set(RULES.map(({ rule }) => rule)).size).toBe(RULES.length);
  });
});
