import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planSchema } from "../../src/contract/index.js";
import { grams } from "../../src/quantity/index.js";
import {
  filledRows,
  type Happened,
  learn,
  refilled,
  writeWeighIn,
  yieldTestsOf,
} from "../../src/weigh-in/index.js";
import { loadYieldTables, readYieldTests } from "../../src/yields/index.js";
import { scenarioOf } from "../support/examples.js";
import { keptIn } from "../support/kept.js";
import { expectBalanced } from "../support/plan-checks.js";
import { happenedBy, rowsToWeigh } from "../support/weighing.js";

const FOLDER = new URL("../../examples/after-service/", import.meta.url);
const read = (name: string) => readFileSync(new URL(name, FOLDER), "utf8");
const scenario = scenarioOf(read("lunch.yaml"));
const plan = kept();
/** As it was kept, whatever fields were added to plans since. */
function kept() {
  const plan = keptIn(JSON.parse(read("lunch.plan.json")), scenario);
  if (plan === null) throw new Error("no plan is kept in the example");
  return plan;
}
const { tables } = loadYieldTables();
const HEADING = "what,service,name,way,part,lot,unit,actual,reason";
const BLANK = writeWeighIn(rowsToWeigh(plan, scenario), scenario);

/** Rows beside a plan's own, which stay blank. */
function weighIn(...rows: string[]): string {
  return [HEADING, ...rows].map((row) => `${row}\n`).join("");
}
function happenedOf(...rows: string[]): Happened {
  const happened = happenedBy(plan, scenario, weighIn(...rows));
  if (Array.isArray(happened)) throw new Error(happened.join("\n"));
  expectBalanced(happened.plan);
  return happened;
}
function problemsOf(...rows: string[]): string[] {
  const happened = happenedBy(plan, scenario, weighIn(...rows));
  return Array.isArray(happened) ? happened : [];
}
function actual({ rows }: Happened, what: string, name: string, part = "", way?: string): number {
  return rows
    .filter((row) => row.what === what && row.name === name && row.part === part && row.measure === "weight")
    .filter((row) => way === undefined || row.way === way)
    .reduce((sum, row) => sum + Number(row.actual) / 1000, 0);
}

const BEET_PARTS = (loss: string) => [
  "cut,Lunch,beet,roots whole,,,g,5400,",
  "cut gave,Lunch,beet,roots whole,beet root,,g,2900,",
  "cut gave,Lunch,beet,roots whole,beet leaf,,g,1150,",
  "cut gave,Lunch,beet,roots whole,beet stem,,g,1080,",
  "cut gave,Lunch,beet,roots whole,beet trim,,g,215,",
  `cut gave,Lunch,beet,roots whole,loss,,g,${loss},`,
];

describe("the weighed lunch of the examples", () => {
  const happened = happenedBy(plan, scenario, read("lunch.weigh-in.csv"));
  if (Array.isArray(happened)) throw new Error(happened.join("\n"));

  it("closes, says how much was weighed, and is valid JSON of a plan", () => {
    expectBalanced(happened.plan);
    expect(planSchema.parse(JSON.parse(JSON.stringify(happened.plan)))).toEqual(happened.plan);
    expect(happened.plan.weighIn).toMatchObject({ figures: 63, weighed: 43 });
    expect(happened.plan.outcome).toMatchObject({ certified: false, objective: null });
  });

  it("has taught the kitchen the yield tests that lie beside it", () => {
    const text = read("yield-tests.csv");
    const { tests } = yieldTestsOf(happened.rows, scenario, tables, "lunch.weigh-in.csv");
    expect(readYieldTests({ file: "yield-tests.csv", text }, tables)).toMatchObject({ tests, problems: [] });
    expect(tests.map(({ item, units, loss }) => [item, units, loss])).toEqual([
      ["beet", 7, grams("55")],
      ["fennel", 7, grams("25")],
    ]);
  });
});

describe("a row left blank", () => {
  it("is as planned where nothing is weighed", () => {
    const happened = happenedBy(plan, scenario, BLANK);
    if (Array.isArray(happened)) throw new Error(happened.join("\n"));
    expect(happened.plan.transfers).toEqual(plan.transfers);
    expect(happened.rows.every(({ weighed }) => !weighed)).toBe(true);
  });

  it("is told by the bill and the count: eight bunches cost and weigh as eight", () => {
    const happened = happenedOf("bought,Lunch,beet,,,,bunch,8,", "cut,Lunch,beet,roots whole,,,bunch,8,");
    expect(actual(happened, "bought", "beet")).toBe(6000);
    expect(happened.plan.purchases.find(({ item }) => item === "beet")).toMatchObject({
      units: 8,
      cost: "19.20",
    });
  });

  it("is told by the difference: what was cut and not used is left over, what was not cut came not in", () => {
    const happened = happenedOf(...BEET_PARTS("55"));
    expect(actual(happened, "bought", "beet")).toBe(5400);
    expect(actual(happened, "into dish", "baked beets", "beet root")).toBe(2600);
    expect(actual(happened, "left over", "beet root")).toBe(300);
  });

  it("of a cut with no part weighed is as planned of what was cut", () => {
    const happened = happenedOf("cut,Lunch,beet,roots whole,,,g,5775,");
    // 10 % more than the 5,250 g planned, of which 56 % are root by the tables.
    expect(actual(happened, "cut gave", "beet", "beet root")).toBe(3234);
  });

  it("of a part all of which was weighed where it went is what went there", () => {
    const happened = happenedOf(
      "into dish,Lunch,baked beets,,beet root,Lunch,g,2700,",
      "left over,,beet root,compost,,Lunch,g,100,",
    );
    expect(actual(happened, "cut gave", "beet", "beet root")).toBe(2800);
    expect(actual(happened, "cut", "beet")).toBe(5250);
    expect(yieldTestsOf(happened.rows, scenario, tables, "x").tests).toEqual([]);
  });
});

describe("a cut weighed part for part", () => {
  it("closes within half the scale's step a weighing, and the loss takes what is between", () => {
    const happened = happenedOf(...BEET_PARTS("53"));
    expect(actual(happened, "cut gave", "beet", "loss")).toBe(55);
    const [test] = yieldTestsOf(happened.rows, scenario, tables, "x").tests;
    expect(test?.loss).toBe(grams("53"));
  });

  it("is refused beyond, with the grams that are missing and what to write", () => {
    expect(problemsOf(...BEET_PARTS("20"))).toEqual([
      "test.weigh-in.csv:2:32: beet, roots whole: 35 g missing, from the weight as purchased to the parts and the loss; the scale explains 3 g. Write 55 g in its row `loss`, on line 7, if it left as juice, drip or crumbs; else weigh again",
    ]);
  });

  it("is refused half weighed, with the parts that are blank", () => {
    const [problem, ...more] = problemsOf(
      ...BEET_PARTS("55").slice(0, 3),
      "cut gave,Lunch,beet,roots whole,beet stem,,g,,",
    );
    expect(more).toEqual([]);
    expect(problem).toContain(
      "these were not: beet stem (line 5), beet trim. Write the weight of every part",
    );
  });
});

describe("what was not planned", () => {
  it("is added: another part into a dish that takes it, another destination, another cut, spare portions", () => {
    const happened = happenedOf(
      "cut,Lunch,leek,whites,,,leek,0,",
      "cut,Lunch,leek,white and light green,,,leek,5,",
      "left over,,beet stem,staff meal,,Lunch,g,1000,",
      "left over,,fennel frond,staff meal,,Lunch,g,91,for the soup",
      "eaten,Lunch,fennel salad,,,Lunch,portion,15,",
      "spare,Lunch,fennel salad,staff meal,,,portion,1,one sent back",
    );
    expect(actual(happened, "cut", "leek", "", "white and light green")).toBe(1010);
    expect(actual(happened, "left over", "fennel frond", "", "staff meal")).toBe(91);
    expect(actual(happened, "left over", "fennel frond", "", "compost")).toBe(0);
    expect(happened.plan.dishes.find(({ dish }) => dish === "fennel salad")).toMatchObject({
      eaten: 15,
      spare: 1,
    });
  });

  it("is refused where the scenario knows nothing of it, all at once and with what is meant", () => {
    const problems = problemsOf(
      "bougt,Lunch,beet,,,,bunch,7,",
      "left over,,beet stem,bin,,Lunch,g,10,",
      "into dish,Lunch,fennel salad,,beet root,Lunch,g,10,",
      "cut,Lunch,beet,roots hole,,,g,100,",
      "cut,Lunch,beet,roots whole,,,g,5.4 kg,",
      "bought,Dinner,beet,,,,g,10,",
      "eaten,Lunch,baked beets,,,Lunch,plates,19,",
      "bought,Lunch,beet,,,,EUR,€16,",
    );
    expect(problems.map((problem) => problem.replace(/^test\.weigh-in\.csv:/, ""))).toEqual([
      "2:1: `bougt` is nothing a weigh-in speaks of. Did you mean `bought`",
      "3:22: destination `bin` is not known here. Write one of: staff meal, compost",
      "4:30: the line of fennel salad that takes beet root is missing. There is none to write",
      "5:16: breakdown of beet `roots hole` is not known here. Did you mean `roots whole`",
      "6:32: `5.4 kg` is no weight. Write 0 or more in g, in digits with a point for decimals, such as 480 or 12.5",
      "7:8: service `Dinner` is not known here. Write one of: Lunch",
      "8:33: `plates` is not what this is counted in. Write portion",
      "9:26: `€16` is no amount of money. Write 0 or more in EUR, without its sign and with a point for decimals, such as 6.60",
    ]);
  });

  it("does not vanish: heads, portions and grams that went nowhere are asked for", () => {
    const problems = problemsOf(
      "bought,Lunch,beet,,,,bunch,8,",
      "cut,Lunch,beet,roots whole,,,bunch,7,",
      "eaten,Lunch,baked beets,,,Lunch,portion,18,",
      "bought,Lunch,fennel,,,,g,2275,",
      "cut,Lunch,fennel,sliced,,,g,2200,",
    ).join("\n");
    expect(problems).toMatch(/beet: 1 bunch came in and went nowhere/);
    expect(problems).toMatch(/baked beets: 2 portions were cooked that nobody ate/);
    expect(problems).toMatch(/fennel: 75 g missing/);
  });
});

describe("learning from a weigh-in again", () => {
  const lesson = (loss: string) => {
    const { tests } = yieldTestsOf(
      happenedOf(...BEET_PARTS(loss)).rows,
      scenario,
      tables,
      "lunch.weigh-in.csv",
    );
    return { tests, weighIn: "lunch.weigh-in.csv", dates: ["2026-10-14"] };
  };
  const learnt = (text: string | null, loss: string) => {
    const result = learn("yield-tests.csv", text, lesson(loss), tables);
    if (result.kind !== "learnt") throw new Error("unreadable");
    return result;
  };

  it("adds nothing, corrects what was corrected, and leaves other tests and other days alone", () => {
    const first = learnt(null, "55");
    expect(first).toMatchObject({ added: 1, replaced: 0 });
    expect(learnt(first.text, "55")).toEqual({ ...first, added: 0 });
    const corrected = learnt(first.text, "54");
    expect(corrected).toMatchObject({ added: 0, replaced: 1 });
    expect(readYieldTests({ file: "t", text: corrected.text }, tables).tests).toHaveLength(1);
    const other = first.text.replaceAll("2026-10-14", "2026-10-07");
    const both = learnt(other, "55");
    expect(both.added).toBe(1);
    expect(readYieldTests({ file: "t", text: both.text }, tables).tests).toHaveLength(2);
    const ownWord = first.text.replaceAll("lunch.weigh-in.csv", "");
    expect(
      readYieldTests({ file: "t", text: learnt(ownWord, "55").text }, tables).tests.map(
        ({ number }) => number,
      ),
    ).toEqual([1, 2]);
  });

  it("writes nothing that could not be read again: a class of the scenario's own, a count out of all reason", () => {
    const rows = happenedOf(...BEET_PARTS("55")).rows;
    const parts = scenario.parts.map((part) =>
      part.name === "beet leaf" ? { ...part, class: "inedible" as const } : part,
    );
    const [test] = yieldTestsOf(rows, { ...scenario, parts }, tables, "lunch.weigh-in.csv").tests;
    expect(test?.parts.find(({ part }) => part === "beet leaf")?.class).toBe("food");
    const miscounted = rows.map((row) =>
      row.what === "cut" && row.measure === "count" ? { ...row, actual: row.actual * 1000n } : row,
    );
    const { tests, without } = yieldTestsOf(miscounted, scenario, tables, "lunch.weigh-in.csv");
    expect(tests).toEqual([]);
    expect(without.map(({ why }) => why)).toContainEqual(
      expect.stringContaining("the yield tables have about"),
    );
  });

  it("is refused where the tests beside it cannot be read", () => {
    expect(learn("yield-tests.csv", "item,form\n", lesson("55"), tables).kind).toBe("unreadable");
  });
});

describe("a weigh-in filled in row by row", () => {
  it("tells a fault in its own row, also below a reason of several lines", () => {
    const source = { file: "lunch.weigh-in.csv", text: read("lunch.weigh-in.csv") };
    const by = { by: "AB", time: "2026-10-08T15:00", planFile: "lunch.plan.json" };
    const { rows } = filledRows(plan, scenario, source, by.planFile);
    const [first, , , fourth] = rows.map(({ key }) => key);
    const told = refilled(plan, scenario, source, {
      ...by,
      changes: new Map([
        [first ?? "", { reason: "spilt\non the floor" }],
        [fourth ?? "", { actual: "some" }],
      ]),
    });
    expect(told.problems).toEqual([]);
    expect([...told.errors.keys()]).toEqual([fourth]);
  });
});
