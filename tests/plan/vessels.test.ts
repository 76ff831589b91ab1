import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { scenarioOf } from "../support/examples.js";
import { marrowBake } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

/** 20 portions in trays of 8, whole or half: two trays and a half one, which takes a third. */
const bake = (limits: string) =>
  marrowBake({ portions: 20 })
    .replace("services:", `limits: {vessels: ${limits}}\nservices:`)
    .replace("    portions: 20", "    portions: 20\n    batch: {portions: 8, halves: yes, vessel: tray}");

const planOf = async (text: string) => (await planScenario(scenarioOf(text), { engines, seconds: 10 })).plan;

describe("a limit of vessels", () => {
  it("lets what fits be planned", async () => {
    expect((await planOf(bake("{tray: 3}"))).outcome.kind).toBe("optimal");
  });

  it("is named where it is why there is no plan", async () => {
    const { outcome, reasons } = await planOf(bake("{tray: 2}"));
    expect(outcome.kind).toBe("infeasible");
    expect(reasons.map(({ text }) => text)).toContain("Have 3 x tray for each service instead of 2.");
  });

  it("names a vessel that nothing is cooked in", () => {
    const { problems } = loadScenarioText("t.yaml", bake("{tra: 3}"));
    expect(problems.map(problemText)).toEqual([
      "t.yaml:4:20: no dish is cooked in batches in a vessel `tra`. Did you mean `tray`?",
    ]);
  });
});
