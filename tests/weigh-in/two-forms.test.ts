import { afterAll, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planScenario } from "../../src/planning/index.js";
import { yieldTestsOf } from "../../src/weigh-in/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { example } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { happenedBy, weighedFile } from "../support/weighing.js";

const engines = new Engines();
afterAll(() => engines.close());

it("a weighing of either form is a yield test of the item, in the form that was bought", async () => {
  const scenario = example("two-forms");
  const { plan } = await planScenario(scenario, { engines, seconds: 20 });
  const happened = happenedBy(
    plan,
    scenario,
    weighedFile(plan, scenario, (row) => row.planned),
  );
  if (Array.isArray(happened)) throw new Error(happened.join("\n"));
  expectBalanced(happened.plan);
  const { tests, without } = yieldTestsOf(
    happened.rows,
    scenario,
    loadYieldTables().tables,
    "two-forms.weigh-in.csv",
  );
  expect(without).toEqual([]);
  expect(new Set(tests.map(({ item, form }) => `${item}, ${form}`))).toEqual(
    new Set(["broccoli, untrimmed head", "broccoli, crown"]),
  );
});
