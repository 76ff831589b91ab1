import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { decisionOf, hasPlan } from "../../src/contract/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { renderHappened, renderPages } from "../../src/pages/index.js";
import { planScenario, replan } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { whatHappened, writeWeighIn } from "../../src/weigh-in/index.js";
import { keptPlan, rowsToWeigh } from "../support/weighing.js";

/** What every object of the language has by itself. */
const NAMES = ["constructor", "__proto__", "toString", "hasOwnProperty", "valueOf"];

/** Invented. A word in angle brackets is a name that a user gives. */
const MENU = `scenario: <scenario>
currency: EUR
limits: {vessels: {<vessel>: 4}}
services:
  - {name: <service>, date: 2026-10-08, sitting: <sitting>, covers: 12, courses: {<course>: 100 %}, diets: {<diet>: 4}}
  - {name: Dinner, date: 2026-10-09, sitting: dinner}
suppliers:
  <supplier>: {minimum: 1.00}
items:
  <item>:
    form: <form>
    grade: <grade>
    supplier: <supplier>
    price: 1.60 / <unit>
    unit_weight: 1000 g
    keeps: 5 days
    keep: {use: <use>, limit: 1 kg}
    allergens: [<allergen>]
    breakdowns:
      <breakdown>:
        parts: {<part>: 800 g, peel: {weight: 180 g, class: inedible}}
        pieces: {<part>: 4}
        loss: 20 g
parts:
  <item> <part>: {container: <container>, food_by: <word>}
  <item> peel: {class: inedible}
  <output>: {food_by: <word>}
steps:
  <step>: {from: <item> <part>, gives: {<output>: 100 %}}
destinations:
  <destination>: {kind: waste}
dishes:
  <dish>:
    course: <course>
    diets: [<diet>]
    shares: [<equipment>]
    batch: {portions: 6, vessel: <vessel>}
    lines: [{name: <line>, amount: 100 g, from: [<output>]}]
    staples: {<staple>: 0.10}
    treatments: [<treatment>]
    cooking: {equipment: <equipment>}
`;

const PLAIN: Readonly<Record<string, string>> = { unit: "head", part: "dice" };
const SLOTS = [...new Set(MENU.match(/<\w+>/g))].map((slot) => slot.slice(1, -1));
const menuWith = (slot: string | null, name: string): string =>
  MENU.replace(/<(\w+)>/g, (_, each: string) => (each === slot ? name : (PLAIN[each] ?? `a ${each}`)));

const engines = new Engines();
afterAll(() => engines.close());

/** Plans it, prints it, weighs all of it as planned and plans again on the day. */
async function usedThroughout(scenario: Scenario): Promise<void> {
  const { plan } = await planScenario(scenario, { engines, seconds: 10 });
  expect(hasPlan(plan)).toBe(true);
  expect(renderPages(plan, scenario).length).toBeGreaterThan(5);
  const kept = keptPlan(scenario, decisionOf(plan, scenario));
  const text = writeWeighIn(rowsToWeigh(kept, scenario), scenario);
  const { happened, problems } = whatHappened(kept, scenario, { file: "w.csv", text }, "p.json");
  expect(problems).toEqual([]);
  if (happened === null) throw new Error("nothing happened");
  expect(renderHappened(kept, scenario, happened).length).toBeGreaterThan(5);
  const day = JSON.stringify({ before: "Dinner", delivered: {}, cut: {}, covers: { Dinner: 3 } });
  const again = await replan(
    { plan: kept, file: "p.json" },
    scenario,
    { file: "d.yaml", text: day },
    {
      engines,
      seconds: 1,
    },
  );
  expect(again.problems).toEqual([]);
}

describe("a name that the programming language has too", () => {
  it("stands in a menu that is sound with plain names", async () => {
    expect(SLOTS.length).toBeGreaterThan(20);
    const { scenario, problems } = loadScenarioText("t.yaml", menuWith(null, ""));
    expect(problems.map(problemText)).toEqual([]);
    if (scenario === null) throw new Error("no scenario");
    await usedThroughout(scenario);
  });

  it.each(SLOTS)("is planned, printed and weighed as %s, or refused in its place", async (slot) => {
    for (const name of NAMES) {
      const text = menuWith(slot, name);
      const { scenario, problems } = loadScenarioText("t.yaml", text);
      const lines = text.split("\n");
      const placed = problems.filter(({ line, what }) => `${lines[line - 1]} ${what}`.includes(name));
      if (scenario === null) expect(placed.length).toBeGreaterThan(0);
      else await usedThroughout(scenario);
    }
  });

  it("is not taken for something that was written", () => {
    const unknown = menuWith("output", "constructor").replace("from: [constructor]", "from: [toString]");
    const { problems } = loadScenarioText("t.yaml", unknown);
    expect(problems.map(({ what }) => what)).toEqual(["no breakdown, step or table gives a part `toString`"]);
  });
});
