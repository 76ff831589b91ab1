import { describe, expect, it } from "vitest";
import { ONE, toGrams, ZERO } from "../../src/quantity/index.js";
import { problemText, type Source } from "../../src/reading/index.js";
import { allergensOfItem } from "../../src/safety/allergens.js";
import { hazardsOf } from "../../src/safety/index.js";
import { BASES } from "../../src/table-files/index.js";
import { loadYieldTables, readYieldTables, type TableItem } from "../../src/yields/index.js";
import { ALLERGENS } from "../support/safety-tables.js";

const { tables, problems } = loadYieldTables();
const breakdowns = tables.items.flatMap((item) => item.breakdowns.map((breakdown) => ({ item, breakdown })));
const partRows = breakdowns.flatMap(({ breakdown }) => breakdown.parts);
const nameOf = (item: TableItem) => `${item.name} (${item.form})`;

describe("the yield tables that come with the package", () => {
  it("are read without a problem", () => {
    expect(problems.map(problemText)).toEqual([]);
  });

  it("make 100 % with the cutting loss in every breakdown", () => {
    for (const { item, breakdown } of breakdowns) {
      const sum = breakdown.parts.reduce((acc, { fraction }) => acc.plus(fraction), breakdown.loss);
      expect(sum.toString(), `${nameOf(item)}, ${breakdown.name}`).toBe("1");
    }
  });

  it("give every part of a breakdown once, with a class, and lose no more than 5 % in cutting", () => {
    for (const { item, breakdown } of breakdowns) {
      const names = breakdown.parts.map(({ part }) => part);
      expect(new Set(names).size, `${nameOf(item)}, ${breakdown.name}`).toBe(names.length);
      expect(breakdown.loss.gte(ZERO) && breakdown.loss.lte("0.05"), nameOf(item)).toBe(true);
      for (const part of breakdown.parts) {
        expect(["food", "inedible", "never"]).toContain(part.class);
        expect(part.part.startsWith(`${item.name} `)).toBe(true);
        expect(part.keepsDays, part.part).not.toBeNull();
      }
      expect(
        breakdown.parts.some((part) => part.class === "food"),
        nameOf(item),
      ).toBe(true);
    }
  });

  it("cite a source and say what it is worth, on every row", () => {
    const rows = [...partRows, ...tables.items, ...tables.steps, ...tables.cooking, ...tables.densities];
    for (const { source, basis } of rows) {
      expect(source.length).toBeGreaterThan(10);
      expect(BASES).toContain(basis);
      expect(basis === "own test", "the package holds no kitchen's own tests").toBe(false);
      if (basis === "read") expect(source).toMatch(/USDA|Canadian Nutrient File|sold by weight|\d/);
      if (/no source/.test(source)) expect(basis).toBe("common practice");
    }
  });

  it("tell how to cut and for how long, for every breakdown", () => {
    for (const { item, breakdown } of breakdowns) {
      expect(breakdown.minutes?.gt(0), nameOf(item)).toBe(true);
      expect(breakdown.how, nameOf(item)).toMatch(/\.$/);
      expect(breakdown.how?.length, nameOf(item)).toBeLessThan(140);
    }
  });

  it("weigh an item as a kitchen would: one kilogram loose, and between 5 g and 20 kg a unit", () => {
    for (const item of tables.items) {
      const weight = toGrams(item.unitWeight);
      if (item.measure === "loose") expect(weight.toString(), nameOf(item)).toBe("1000");
      expect(weight.gte(5) && weight.lte(20_000), nameOf(item)).toBe(true);
      if (item.unitSpread !== null)
        expect(toGrams(item.unitSpread).lte(weight.div(2)), nameOf(item)).toBe(true);
    }
  });

  it("keep raw fish and raw poultry two days and no longer (USDA storage figures: 1 to 2 days)", () => {
    const raw = tables.items.filter(({ handling }) => handling === "fish" || handling === "poultry");
    expect(raw.length).toBeGreaterThan(5);
    for (const item of raw) {
      expect(item.keepsDays, nameOf(item)).toBeLessThanOrEqual(2);
      for (const { parts } of item.breakdowns) {
        for (const part of parts) expect(part.keepsDays, part.part).toBeLessThanOrEqual(2);
      }
    }
  });

  it("close every step: parts and loss make what goes in, with the water", () => {
    for (const step of tables.steps) {
      const out = step.yields.reduce((acc, { fraction }) => acc.plus(fraction), step.loss);
      expect(out.toString(), step.name).toBe(ONE.plus(step.water).toString());
      expect(step.how, step.name).toMatch(/\.$/);
    }
  });

  it("never take a hazard into a step", () => {
    const never = new Set(partRows.filter((part) => part.class === "never").map(({ part }) => part));
    expect(never.has("rhubarb leaf")).toBe(true);
    for (const step of tables.steps) expect(step.from.filter((part) => never.has(part))).toEqual([]);
  });

  it("call never what the table of hazards calls never, and nothing else but spines", () => {
    const disagree = tables.items.flatMap((item) =>
      item.breakdowns
        .flatMap(({ parts }) => parts)
        .filter((part) => {
          const hazards = hazardsOf(item.name, part.part.slice(item.name.length + 1));
          return hazards.some(({ rule }) => rule.kind === "never") !== (part.class === "never");
        })
        .map(({ part }) => part),
    );
    expect([...new Set(disagree)]).toEqual(["nopal spines and edge"]);
  });

  it("state the allergens that an item's name tells of, by the names of the lists", () => {
    for (const item of tables.items) {
      for (const allergen of item.allergens) expect(ALLERGENS, item.name).toContain(allergen);
      for (const allergen of allergensOfItem(item.name)) {
        if (allergen === "cereals containing gluten") expect(item.allergens, item.name).toContain("wheat");
        else expect(item.allergens, item.name).toContain(allergen);
      }
    }
  });

  it("cook to between a fifth and four times the raw weight", () => {
    for (const { food, fraction, spread } of tables.cooking) {
      expect(fraction.gte("0.2") && fraction.lte(4), food).toBe(true);
      if (spread !== null) expect(spread.lt("0.2"), food).toBe(true);
    }
  });

  it("have the breadth of a kitchen's buying", () => {
    const items = new Set(tables.items.map(({ name }) => name));
    const several = new Set(
      tables.items.filter((item) => item.breakdowns.length > 1).map(({ name }) => name),
    );
    expect(items.size).toBeGreaterThanOrEqual(150);
    expect(several.size).toBeGreaterThanOrEqual(60);
    expect(tables.steps.length).toBeGreaterThanOrEqual(60);
    expect(tables.cooking.length).toBeGreaterThanOrEqual(150);
  });
});

const GOOD: Readonly<Record<string, string>> = {
  "items.csv": `item,form,handling,measure,unit,unit_weight_g,source,basis,keeps_days,keeps_source,keeps_basis
swede,whole,plant,whole,root,600,"common practice, no source",common practice,14,USDA,read
`,
  "cuts.csv": `item,form,breakdown,minutes,how
swede,whole,peeled,3,Peel 3 mm thick.
`,
  "vegetables.csv": `item,form,breakdown,part,percent,class,source,basis
swede,whole,peeled,flesh,85,food,USDA SR28 11435,read
swede,whole,peeled,peel,14,inedible,USDA SR28 11435,read
swede,whole,peeled,loss,1,loss,USDA SR28 11435,read
`,
  "steps.csv": `step,from,how,source,basis
dice swede,swede flesh,Cut 10 mm.,"common practice, no source",common practice
`,
  "step-parts.csv": `step,part,percent,class,state,keeps_days
dice swede,swede dice,97,food,raw,3
dice swede,swede offcuts,3,food,raw,3
`,
  "cooking.csv": `food,method,percent,source,basis
swede,boiled,98,from a book,memory
`,
  "densities.csv": `food,also_called,g_per_mL,source,basis
olive oil,"oil, salad oil",0.913,from a book,memory
`,
};

function readWith(changes: Readonly<Record<string, string>>): string[] {
  const sources: Source[] = Object.entries({ ...GOOD, ...changes }).map(([file, text]) => ({ file, text }));
  return readYieldTables(sources).problems.map(problemText);
}

describe("yield tables with mistakes", () => {
  it("has none in the tables the mistakes are planted in", () => {
    expect(readWith({})).toEqual([]);
  });

  it("reports every mistake of a file of breakdowns at once, with its place", () => {
    const text = `item,form,breakdown,part,percent,class,source,basis
swede,whole,peeled,flesh,84.5,food,USDA SR28 11435,read
swede,whole,peeled,peel,14,inedible,USDA SR28 11435,read
swede,whole,peeled,loss,1,loss,USDA SR28 11435,read
swede,whole,thick,flesh,120,food,USDA SR28 11435,read
swede,whole,thick,peel,14,rubbish,,guess
swede,whole,thick,peel,14,inedible,USDA SR28 11435,read
swede,whole,baked,flesh,99,inedible,USDA SR28 11435,read
swede,whole,baked,loss,1,loss,USDA SR28 11435,read
sweed,whole,peeled,flesh,100,food,USDA SR28 11435,read
`;
    expect(readWith({ "vegetables.csv": text })).toEqual([
      "vegetables.csv:5:25: `120` is no number above 0 and up to 100. Write the percent in digits, such as 12.5",
      "vegetables.csv:6:27: `rubbish` is no class. Write one of: food, inedible, never, loss",
      "vegetables.csv:6:35: `source` is empty. Name the document and its number, or write: common practice, no source",
      "vegetables.csv:6:36: `guess` is no basis. Write one of: read, memory, common practice, own test",
      "vegetables.csv:7:19: swede, whole, thick, peel stands on line 6 already. Keep one of the two rows",
      "vegetables.csv:2:1: the parts of swede (whole), peeled make 99.5 %, 0.5 % too little. Correct a percent or the loss until they make 100 %",
      "vegetables.csv:10:1: item `sweed (whole)` is not in items.csv. Did you mean `swede (whole)`",
      "vegetables.csv:8:1: swede (whole), baked has no minutes and instruction. Add a row for it to cuts.csv",
      "vegetables.csv:10:1: sweed (whole), peeled has no minutes and instruction. Add a row for it to cuts.csv",
      "vegetables.csv:8:1: class of swede flesh is inedible here and food on vegetables.csv:2. Write the same in both rows, or give one of the parts another name",
    ]);
  });

  it("reports a step that does not close, and one that takes an unknown part", () => {
    const steps = `step,from,how,source,basis
dice swede,swede flash,Cut 10 mm.,"common practice, no source",common practice
`;
    const parts = `step,part,percent,class,state,keeps_days
dice swede,swede dice,97,food,raw,3
dice swede,swede offcuts,4.25,food,raw,3
`;
    expect(readWith({ "steps.csv": steps, "step-parts.csv": parts })).toEqual([
      "step-parts.csv:2:1: parts and loss of dice swede make 101.25 %, 1.25 % too much. Correct a percent or the loss until they make 100 %",
      "steps.csv:2:1: part `swede flash` is not in the breakdowns. Did you mean `swede flesh`",
    ]);
  });

  it("counts the water a pot takes up in what its parts must make", () => {
    const parts = `step,part,percent,class,state,keeps_days
dice swede,swede stock,180,food,cooked,3
dice swede,swede solids,110,inedible,cooked,1
dice swede,loss,10,loss,,
dice swede,water,200,water,,
`;
    expect(readWith({ "step-parts.csv": parts })).toEqual([]);
  });

  it("reports an item without breakdowns, a cut without one, and a part kept longer in one row than another", () => {
    const items = `${GOOD["items.csv"]}turnip,whole,plant,whole,root,150,"common practice, no source",common practice,14,USDA,read
`;
    const cuts = `${GOOD["cuts.csv"]}swede,whole,pealed,3,Peel 3 mm thick.
`;
    const stepParts = `step,part,percent,class,state,keeps_days
dice swede,swede dice,60,food,raw,3
dice swede,swede flesh,40,food,raw,3
`;
    const text = `item,form,breakdown,part,percent,class,source,basis,keeps_days,keeps_basis
swede,whole,peeled,flesh,99,food,USDA SR28 11435,read,4,common practice
swede,whole,peeled,loss,1,loss,USDA SR28 11435,read,,
`;
    expect(
      readWith({ "items.csv": items, "cuts.csv": cuts, "step-parts.csv": stepParts, "vegetables.csv": text }),
    ).toEqual([
      "items.csv:3:1: turnip (whole) has no breakdown. Add a row for it to the breakdowns",
      "cuts.csv:3:1: breakdown `swede (whole), pealed` is not in the breakdowns. Did you mean `swede (whole), peeled`",
      "step-parts.csv:3:1: keeps_days of swede flesh is 3 here and 4 on vegetables.csv:2. Write the same in both rows, or give one of the parts another name",
    ]);
  });

  it("reports every mistake of the densities at once, a name that two foods go by among them", () => {
    const text = `${GOOD["densities.csv"]}honey,,14.2,from a book,memory
,,1,from a book,memory
walnut oil,salad oil,0.921,,heard
`;
    expect(readWith({ "densities.csv": text })).toEqual([
      "densities.csv:3:8: `14.2` is no number above 0 and up to 2. Write the g_per_mL in digits, such as 12.5",
      "densities.csv:4:1: `food` is empty. Write the food",
      "densities.csv:5:28: `source` is empty. Name the document and its number, or write: common practice, no source",
      "densities.csv:5:29: `heard` is no basis. Write one of: read, memory, common practice, own test",
      "densities.csv:5:12: salad oil stands on line 2 already. Keep one of the two rows",
    ]);
  });

  it("misses a table that is not there, by name", () => {
    const sources = Object.entries(GOOD)
      .filter(([file]) => file !== "cooking.csv")
      .map(([file, text]) => ({ file, text }));
    expect(readYieldTables(sources).problems.map(problemText)).toEqual([
      "cooking.csv:1:1: cooking.csv is missing from the yield tables. Put it back, with at least its heading row",
    ]);
  });
});
