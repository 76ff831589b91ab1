import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { grams, milligrams, type Weight } from "../../src/quantity/index.js";
import { cleaned } from "../../src/reading/clean.js";
import { problemText } from "../../src/reading/index.js";
import {
  loadYieldTables,
  numberedAfter,
  readYieldTests,
  type WeighedPart,
  writeYieldTests,
  type YieldTest,
} from "../../src/yields/index.js";
import { gapOf, isClosed } from "../../src/yields/own-tests/yield-test.js";
import { aYieldTest } from "../support/own-tests.js";

const { tables } = loadYieldTables();
const HEADING = "item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class";

/** Invented weighings; the first is of four heads of 1,960 g together. */
const FIRST = [
  "broccoli,untrimmed head,florets,Field & Co,2026-10-05,1,4,1960,1,floret,1180,food",
  "broccoli,untrimmed head,florets,Field & Co,2026-10-05,1,4,1960,1,stem,402.5,food",
  "broccoli,untrimmed head,florets,Field & Co,2026-10-05,1,4,1960,1,leaf,171,food",
  "broccoli,untrimmed head,florets,Field & Co,2026-10-05,1,4,1960,1,trim,189,inedible",
  "broccoli,untrimmed head,florets,Field & Co,2026-10-05,1,4,1960,1,loss,17.5,loss",
];
const file = (...rows: readonly string[]) => ({
  file: "own-tests.csv",
  text: [HEADING, ...rows].map((row) => `${row}\n`).join(""),
});
const problemsOf = (...rows: readonly string[]) =>
  readYieldTests(file(...rows), tables).problems.map(problemText);
const edited = (row: number, from: string, to: string) =>
  FIRST.map((text, index) => (index === row ? text.replace(from, to) : text));

describe("the file of own tests", () => {
  it("is read, several rows a test", () => {
    const { tests, problems } = readYieldTests(file(...FIRST), tables);
    expect(problems).toEqual([]);
    expect(tests).toEqual([
      {
        item: "broccoli",
        form: "untrimmed head",
        breakdown: "florets",
        supplier: "Field & Co",
        date: "2026-10-05",
        number: 1,
        units: 4,
        apWeight: grams("1960"),
        scaleStep: grams("1"),
        parts: [
          { part: "broccoli floret", weight: grams("1180"), class: "food" },
          { part: "broccoli stem", weight: grams("402.5"), class: "food" },
          { part: "broccoli leaf", weight: grams("171"), class: "food" },
          { part: "broccoli trim", weight: grams("189"), class: "inedible" },
        ],
        loss: grams("17.5"),
      },
    ]);
  });

  it("may leave the scale's step and the number out, and have its columns in any order", () => {
    const short = {
      file: "own-tests.csv",
      text: "part,class,weight_g,item,form,breakdown,supplier,date,units,ap_g\nwhole,food,50,egg,any,shelled,farm,2026-10-05,1,57\nshell,inedible,7,egg,any,shelled,farm,2026-10-05,1,57\n",
    };
    const { tests, problems } = readYieldTests(short);
    expect(problems).toEqual([]);
    expect(tests[0]).toMatchObject({ number: 1, scaleStep: grams("1"), loss: grams("0") });
  });

  it("is read as its description shows it", () => {
    const readme = readFileSync(new URL("../../yield-tables/README.md", import.meta.url), "utf8");
    const text = /```csv\n([^`]*)```/.exec(readme)?.[1] ?? "";
    const { tests, problems } = readYieldTests({ file: "README.md", text }, tables);
    expect(problems).toEqual([]);
    expect(tests).toHaveLength(1);
    expect(writeYieldTests(tests)).toBe(text);
  });

  it("parts two tests of one day by their number", () => {
    const second = FIRST.map((row) => row.replace("2026-10-05,1,", "2026-10-05,2,"));
    expect(readYieldTests(file(...FIRST, ...second), tables).tests.map(({ number }) => number)).toEqual([
      1, 2,
    ]);
  });
});

describe("a test that does not close", () => {
  it("is refused with the missing grams", () => {
    expect(problemsOf(...edited(1, "402.5", "380"))).toEqual([
      "own-tests.csv:2:59: broccoli (untrimmed head), florets: 22.5 g missing, for the parts and the loss weigh 1937.5 g of 1960 g. " +
        "Weigh again, or state what was lost in a row of class loss: 6 weighings to 1 g explain 3 g and no more",
    ]);
  });

  it("is refused with the grams that are too much", () => {
    expect(problemsOf(...edited(0, "1180", "1183.001"))).toEqual([
      "own-tests.csv:2:59: broccoli (untrimmed head), florets: 3.001 g too much, for the parts and the loss weigh 1963.001 g of 1960 g. " +
        "Weigh again, or state what was lost in a row of class loss: 6 weighings to 1 g explain 3 g and no more",
    ]);
  });

  it("is taken where half the scale's step for each weighing explains the gap", () => {
    expect(problemsOf(...edited(0, "1180", "1183"))).toEqual([]);
    expect(problemsOf(...edited(0, "1180", "1177"))).toEqual([]);
    const coarse = edited(1, "402.5", "390").map((row) => row.replace(",1960,1,", ",1960,5,"));
    expect(problemsOf(...coarse)).toEqual([]);
    const fine = edited(0, "1180", "1181").map((row) => row.replace(",1960,1,", ",1960,0.2,"));
    expect(problemsOf(...fine)).toHaveLength(1);
  });

  it("closes or not by the exact bound, and no reading of a scale within its half step is refused", () => {
    const step = fc.bigInt({ min: 1n, max: 10_000n });
    const weights = fc.array(fc.bigInt({ min: 0n, max: 5_000_000n }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(step, weights, (scaleStep, weighed) => {
        const shown = (weight: bigint) =>
          milligrams(((2n * weight + scaleStep) / (2n * scaleStep)) * scaleStep);
        const whole = weighed.reduce((sum, each) => sum + each, 0n);
        const parts = weighed.map((each, index) => aPart(`item ${index}`, shown(each)));
        const test = aTest({ apWeight: shown(whole), parts, scaleStep: milligrams(scaleStep) });
        expect(isClosed(test)).toBe(true);
        const bound = (BigInt(1 + parts.length) * scaleStep) / 2n;
        const openBy = (gap: bigint) =>
          isClosed({ ...test, apWeight: milligrams(test.apWeight - gapOf(test) + gap) });
        expect([openBy(bound), openBy(-bound), openBy(bound + 1n), openBy(-bound - 1n)]).toEqual([
          true,
          true,
          false,
          false,
        ]);
      }),
    );
  });
});

describe("mistakes in the file", () => {
  it.each<[string, readonly string[], readonly string[]]>([
    [
      "a day that is none",
      FIRST.map((row) => row.replace("2026-10-05", "2026-02-30")),
      [
        ...[2, 3, 4, 5, 6].map(
          (line) =>
            `own-tests.csv:${line}:44: \`2026-02-30\` is no day of the calendar. Write year-month-day, such as 2026-10-12`,
        ),
      ],
    ],
    [
      "a weight that is none",
      edited(2, ",171,", ",a handful,"),
      [
        "own-tests.csv:4:71: `a handful` is no weight in grams. Write 0 to 1000000 g in digits, to three decimals at most, such as 480 or 12.5",
      ],
    ],
    [
      "a weight finer than the milligram",
      edited(2, ",171,", ",171.0001,"),
      [
        "own-tests.csv:4:71: `171.0001` is no weight in grams. Write 0 to 1000000 g in digits, to three decimals at most, such as 480 or 12.5",
      ],
    ],
    [
      "a part weighed twice",
      [...FIRST, FIRST[2] ?? ""],
      [
        "own-tests.csv:7:66: broccoli, untrimmed head, florets, Field & Co, 2026-10-05, 1, leaf stands on line 4 already. Keep one of the two rows",
      ],
    ],
    [
      "rows of one test that disagree",
      edited(3, ",1960,", ",1906,"),
      [
        "own-tests.csv:5:59: `ap_g` is 1906 here and 1960 on line 2 of the same test. Write the same in all rows of a test, and number the tests of one day in the column test",
      ],
    ],
    [
      "an unknown class",
      edited(3, "inedible", "waste"),
      ["own-tests.csv:5:75: `waste` is no class. Write one of: food, inedible, never, loss"],
    ],
    [
      "no part at all",
      FIRST.slice(4).map((row) => row.replace("17.5", "1960")),
      ["own-tests.csv:2:59: this test of florets weighs no part. Add a row for each part"],
    ],
    [
      "units that are not whole",
      FIRST.map((row) => row.replace(",1,4,1960", ",1,3.5,1960")),
      [
        ...[2, 3, 4, 5, 6].map(
          (line) =>
            `own-tests.csv:${line}:57: \`3.5\` is no whole number from 1 to 10000. Write the units in digits, such as 12`,
        ),
      ],
    ],
  ])("%s", (_, rows, expected) => {
    expect(problemsOf(...rows)).toEqual(expected);
    expect(readYieldTests(file(...rows), tables).tests).toEqual([]);
  });

  it.each<[string, readonly string[], readonly string[]]>([
    [
      "an item",
      FIRST.map((row) => row.replace("broccoli", "brocoli")),
      ["own-tests.csv:2:1: item `brocoli` is not in the yield tables. Did you mean `broccoli`"],
    ],
    [
      "a form",
      FIRST.map((row) => row.replace("untrimmed head", "untrimed head")),
      [
        "own-tests.csv:2:10: form of broccoli `untrimed head` is not in the yield tables. Did you mean `untrimmed head`",
      ],
    ],
    [
      "a breakdown",
      FIRST.map((row) => row.replace(",florets,", ",floret,")),
      [
        "own-tests.csv:2:25: breakdown of broccoli (untrimmed head) `floret` is not in the yield tables. Did you mean `florets`",
      ],
    ],
    [
      "a part, and so misses one",
      edited(1, "stem,", "stems,"),
      [
        "own-tests.csv:3:66: part `stems` is not in broccoli (untrimmed head), florets of the yield tables. Did you mean `stem`",
        "own-tests.csv:6:66: no row of this test weighs broccoli stem, which broccoli (untrimmed head), florets gives. Add a row for it, with 0 where there was none of it",
      ],
    ],
    [
      "a class",
      edited(2, "food", "inedible"),
      [
        "own-tests.csv:4:75: broccoli leaf is inedible here and food in the yield tables. Write food: a weighing does not change what a part is fit for",
      ],
    ],
    [
      "the weight of a unit",
      FIRST.map((row) => row.replace(",1,4,1960,", ",1,400,1960,")),
      [
        "own-tests.csv:2:57: 400 units of this weight make one head 4.9 g; the yield tables have about 500 g. Write how many were weighed together, and their weight in grams",
      ],
    ],
    [
      "what a scale so coarse may tell",
      FIRST.map((row) => row.replace(",1960,1,", ",1960,100,")),
      [
        "own-tests.csv:2:64: weighings to 100 g may hide 300 g of 1960 g. Use a finer scale, or weigh more together: a tenth may be hidden, no more",
      ],
    ],
  ])("the tables know otherwise: %s", (_, rows, expected) => {
    expect(problemsOf(...rows)).toEqual(expected);
    expect(readYieldTests(file(...rows), tables).tests).toEqual([]);
    expect(readYieldTests(file(...rows)).problems).toEqual([]);
  });

  it("a whole that weighs nothing or more than a tonne, and a number that is none", () => {
    const remedy = "g in digits, to three decimals at most, such as 480 or 12.5";
    const withWhole = (text: string) =>
      problemsOf(...FIRST.map((row) => row.replace(",1960,", `,${text},`)))[0];
    expect(withWhole("0")).toBe(
      `own-tests.csv:2:59: \`0\` is no weight in grams. Write more than 0 and up to 1000000 ${remedy}`,
    );
    expect(withWhole("1000000.001")).toBe(
      `own-tests.csv:2:59: \`1000000.001\` is no weight in grams. Write more than 0 and up to 1000000 ${remedy}`,
    );
    const numbered = file(...FIRST.map((row) => row.replace("2026-10-05,1,", "2026-10-05,one,")));
    expect(readYieldTests(numbered, tables).problems).toHaveLength(5);
    expect(readYieldTests(numbered, tables).tests).toEqual([]);
  });

  it("names the part that is missing beside the grams that are", () => {
    expect(problemsOf(...FIRST.slice(1))).toEqual([
      expect.stringMatching(/^own-tests.csv:2:59: .* 1180 g missing/),
      expect.stringMatching(/^own-tests.csv:5:66: no row of this test weighs broccoli floret/),
    ]);
  });

  it("says of rows that disagree only that, and not also what follows from it", () => {
    const found = problemsOf(...edited(0, ",1960,", ",1906,"));
    expect(found).toHaveLength(4);
    expect(found[0]).toMatch(/^own-tests.csv:3:59: `ap_g` is 1960 here and 1906 on line 2/);
  });

  it("leaves out the test that is wrong and reads the others", () => {
    const second = FIRST.map((row) => row.replace("2026-10-05,1,", "2026-10-06,1,"));
    const { tests, problems } = readYieldTests(file(...edited(1, "402.5", "380"), ...second), tables);
    expect(problems).toHaveLength(1);
    expect(tests.map(({ date }) => date)).toEqual(["2026-10-06"]);
  });

  it("names a column that is missing", () => {
    const source = {
      file: "own-tests.csv",
      text: "item,form,breakdown,supplier,date,units,ap_g,part,weight\n",
    };
    expect(readYieldTests(source).problems.map(problemText)).toEqual([
      "own-tests.csv:1:1: the table has no column `class`. Add a column headed `class`",
      "own-tests.csv:1:51: the table has no column `weight_g`. Is `weight` meant for it? Head it `weight_g`",
    ]);
  });
});

describe("writing own tests", () => {
  it("writes what it read", () => {
    const source = file(...FIRST);
    expect(writeYieldTests(readYieldTests(source, tables).tests)).toBe(source.text);
  });

  it("writes, reads and writes the same, whatever the tests", () => {
    const name = fc
      .string({ minLength: 1, maxLength: 12, unit: "grapheme" })
      .map((text) =>
        cleaned(text.replace(/[\r\n]/g, " "))
          .normalize("NFC")
          .trim(),
      )
      .filter((text) => text !== "" && !text.startsWith("\uFEFF") && !text.includes("\uFFFD"));
    const weight = fc.bigInt({ min: 0n, max: 20_000_000n }).map(milligrams);
    const test = fc
      .record({
        item: name,
        form: name,
        breakdown: name,
        supplier: name,
        day: fc.integer({ min: 10, max: 28 }),
        number: fc.integer({ min: 1, max: 9 }),
        units: fc.integer({ min: 1, max: 40 }),
        parts: fc.uniqueArray(fc.tuple(name, weight, fc.constantFrom("food", "inedible", "never")), {
          minLength: 1,
          maxLength: 5,
          selector: ([part]) => part,
        }),
        loss: weight,
      })
      .map(({ parts, day, loss, ...head }): YieldTest => {
        const weighed = parts.map(([part, each, partClass]) =>
          aPart(`${head.item} ${part}`, each, partClass),
        );
        const whole = weighed.reduce((sum, each) => sum + each.weight, loss as bigint);
        return {
          ...head,
          date: `2026-10-${day}`,
          apWeight: milligrams(whole === 0n ? 1n : whole),
          parts: weighed,
          loss,
          scaleStep: grams("1"),
        };
      })
      .filter(({ parts }) => !parts.some(({ part }) => part.endsWith(" loss")));
    const tests = fc.uniqueArray(test, {
      maxLength: 5,
      selector: ({ item, form, breakdown, supplier, date, number }) =>
        [item, form, breakdown, supplier, date, number].join("\n"),
    });
    fc.assert(
      fc.property(tests, (written) => {
        const text = writeYieldTests(written);
        const read = readYieldTests({ file: "own-tests.csv", text });
        expect(read.problems.map(problemText)).toEqual([]);
        expect(read.tests).toEqual(written);
        expect(writeYieldTests(read.tests)).toBe(text);
      }),
      { seed: 20261109 },
    );
  });

  it("refuses two tests under one number, and numbers the next one", () => {
    const [test] = readYieldTests(file(...FIRST), tables).tests;
    if (test === undefined) throw new Error("no test read");
    expect(() => writeYieldTests([test, test])).toThrow(
      new RangeError(
        "two tests are both broccoli (untrimmed head), florets, Field & Co, 2026-10-05, test 1: number them",
      ),
    );
    const next = numberedAfter(
      [test, { ...test, number: 4 }, { ...test, supplier: "other", number: 9 }],
      test,
    );
    expect(next.number).toBe(5);
    expect(numberedAfter([], { ...test, number: 7 }).number).toBe(1);
    expect(readYieldTests({ file: "f", text: writeYieldTests([test, next]) }, tables).tests).toEqual([
      test,
      next,
    ]);
  });

  it("refuses a part that does not carry its item's name", () => {
    const stray = aTest({ parts: [aPart("leek green", grams("5"))] });
    expect(() => writeYieldTests([stray])).toThrow(
      new RangeError("leek green is not called by its item item first"),
    );
  });
});

function aPart(part: string, weight: Weight, partClass: WeighedPart["class"] = "food"): WeighedPart {
  return { part, weight, class: partClass };
}

function aTest(stated: Partial<YieldTest>): YieldTest {
  const named = { item: "item", form: "form", breakdown: "breakdown", supplier: "supplier" };
  return aYieldTest({ ...named, date: "2026-10-05", ...stated });
}
