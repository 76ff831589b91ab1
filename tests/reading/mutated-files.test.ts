import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { PlanJson } from "../../src/contract/index.js";
import { readHappened, readTestCard, type Scenario } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { readSafetyTables } from "../../src/safety/tables/read.js";
import { packagedTables } from "../../src/table-files/index.js";
import { whatHappened, writeWeighIn } from "../../src/weigh-in/index.js";
import { checkTestCard, loadYieldTables, readYieldTables, readYieldTests } from "../../src/yields/index.js";
import { type Mutation, RUNS, readsAll, watched } from "../support/mutated-files.js";
import { TWO_EVENINGS, WAITING_POT } from "../support/scenarios.js";
import { VEAL } from "../support/test-cards.js";
import { TWO_MARROW_DISHES } from "../support/two-marrow-dishes.js";
import { rowsToWeigh } from "../support/weighing.js";

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
  const sayWhatItTook = watched();
  afterAll(async () => {
    await engines.close();
    sayWhatItTook();
  });
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
      const { card, problems } = checkTestCard(readTestCard({ file: "t.yaml", text }));
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

  it("a safety table", () => {
    for (const { file, text: whole } of packagedTables("yield-tables/safety"))
      readsAll([whole.split("\n").slice(0, 12).join("\n")], (text) => {
        const { tables, problems } = readSafetyTables([{ file, text }]);
        return { value: tables, problems: problems.filter((problem) => problem.file === file) };
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
