import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expected, MISTAKES, plant } from "../support/planted-mistakes.js";
import { problemsOf } from "../support/resolving.js";
import { TWO_MARROW_DISHES } from "../support/two-marrow-dishes.js";

const place = (problem: string): number[] => problem.split(":").slice(1, 3).map(Number);

function inFileOrder(problems: readonly string[]): string[] {
  return [...problems].sort((left, right) => {
    const [[leftLine = 0, leftColumn = 0], [rightLine = 0, rightColumn = 0]] = [place(left), place(right)];
    return leftLine - rightLine || leftColumn - rightColumn;
  });
}

function problemsOfPlanted(mistakes: readonly (typeof MISTAKES)[number][]) {
  const text = mistakes.reduce(plant, TWO_MARROW_DISHES);
  return { found: problemsOf(text), wanted: inFileOrder(mistakes.map((mistake) => expected(text, mistake))) };
}

describe("a mistake planted in a sound scenario", () => {
  it.each(MISTAKES.map((mistake) => [mistake.name, mistake] as const))(
    "is the one problem found: %s",
    (_, mistake) => {
      const { found, wanted } = problemsOfPlanted([mistake]);
      expect(found).toEqual(wanted);
    },
  );

  it("is found beside every other, each once, in file order and with nothing that only follows from them", () => {
    const { found, wanted } = problemsOfPlanted(MISTAKES);
    expect(found).toEqual(wanted);
    expect(found).toHaveLength(MISTAKES.length);
  });

  it("is found beside any others", () => {
    const seed = 250;
    console.info(`planted mistakes: seed ${seed}, 150 runs`);
    const property = fc.property(fc.subarray([...MISTAKES]), (mistakes) => {
      const { found, wanted } = problemsOfPlanted(mistakes);
      expect(found).toEqual(wanted);
    });
    fc.assert(property, { seed, numRuns: 150 });
  });
});

describe("eight mistakes in one small file", () => {
  it("get eight lines, each with its place and what to write instead", () => {
    const text = `scenario: Eight mistakes
currency: EUR
services:
  - {name: Lunch, date: 2026-10-02, covers: 20, courses: {main: 100 %}}
  - {name: Lunch, date: 2026-10-03, covers: 20, courses: {main: 100 %}}
items:
  marrow:
    unit_weight: 1400 g
    keeps: 5 days
    on_hand: {amount: 2 each, use_by: 2026-09-30}
    breakdowns:
      rings: {parts: {ring: 900 g, peel: {weight: 460 g, class: inedible}}, loss: 20 g}
dishes:
  bake:
    course: mian
    celing: 0.85
    lines:
      - {amount: 170 gr, from: marrow ring}
      - {amount: 100 g, from: marrow rnig}
`;
    expect(problemsOf(text)).toEqual([
      "t.yaml:5:12: a service called `Lunch` stands on line 4 already. Give each service a name of its own",
      "t.yaml:7:3: `marrow` has no price. Add `price:`, such as `price: 1.35 / each`, or `buy: no`",
      "t.yaml:10:39: the use-by date 2026-09-30 is past before Lunch on 2026-10-02. Take the stock out of the plan, or correct the date",
      "t.yaml:12:7: parts and loss are 1380 g and the unit is 1400 g: 20 g are missing. Add them to a part or to `loss`",
      "t.yaml:15:13: no service has a course `mian`. Did you mean `main`?",
      "t.yaml:16:5: `celing` is no key that is known here. Did you mean `ceiling`?",
      "t.yaml:18:18: `gr` is not a unit that is known here. Did you mean `g`?",
      "t.yaml:19:31: no breakdown, step or table gives a part `marrow rnig`. Did you mean `marrow ring`?",
    ]);
  });
});

describe("a dish written twice", () => {
  it("is the one problem, though the course of the second has no other dish", () => {
    const text = `scenario: Twice
currency: EUR
services: [{name: Lunch, date: 2026-10-02, covers: 20, courses: {main: 100 %, side: 50 %}}]
items: {gourd: {price: 2.00 / kg, breakdowns: {cut: {parts: {dice: 100 %}}}}}
dishes:
  bake: {course: main, lines: [{amount: 100 g, from: gourd dice}]}
  bake: {course: side, lines: [{amount: 50 g, from: gourd dice}]}
`;
    expect(problemsOf(text)).toEqual([
      "t.yaml:7:3: `bake` is written twice in the same place; it stands on line 6 already. Keep one of them, or give them different names",
    ]);
  });
});

describe("a misspelt part", () => {
  it("is taken for one that can be had before one nearer that cannot", () => {
    const text = `scenario: Had
currency: EUR
services: [{name: Lunch, date: 2026-10-02, covers: 20, courses: {main: 100 %}}]
items:
  gourd:
    price: 2.00 / kg
    cut: [thin]
    breakdowns: {thin: {parts: {slice: 100 %}}, thick: {parts: {slicer: 100 %}}}
dishes: {bake: {course: main, lines: [{amount: 100 g, from: gourd slicerr}]}}
`;
    expect(problemsOf(text)).toEqual([
      "t.yaml:9:61: no breakdown, step or table gives a part `gourd slicerr`. Did you mean `gourd slice`?",
    ]);
  });
});

describe("a file whose top is missing", () => {
  it("names each key that is", () => {
    expect(problemsOf("invented: yes\n")).toEqual([
      "t.yaml:1:1: `scenario` is missing. Write a text",
      "t.yaml:1:1: `currency` is missing. Write its three letters, such as `GBP`",
      "t.yaml:1:1: `services` is missing. Write a list, such as `- {name: Friday dinner, date: 2026-10-02}`",
      "t.yaml:1:1: `items` is missing. Write keys and values, such as `marrow: {price: 1.35 / head}`",
      "t.yaml:1:1: `dishes` is missing. Write keys and values, such as `marrow bake: {course: main}`",
    ]);
  });

  it("is checked in what it has", () => {
    const text =
      "scenario: x\ncurrency: EUR\nitems: {leek: {price: 2.00}}\ndishes: {soup: {course: 1, lines: []}}\n";
    expect(problemsOf(text)).toEqual([
      "t.yaml:1:1: `services` is missing. Write a list, such as `- {name: Friday dinner, date: 2026-10-02}`",
      "t.yaml:3:9: no yield table holds `leek`. Give it `breakdowns:` of its own",
      "t.yaml:3:23: `2.00` does not say what the price is for. Write a price and what it is for, such as `1.35 / head`, `4.00 / kg` or `8.40 / case of 6`",
      "t.yaml:4:10: `soup` takes no part of any item. Add `lines:`, such as `lines: [{amount: 170 g, from: marrow dice}]`",
    ]);
  });

  it("is asked for its beginning where it holds nothing", () => {
    expect(problemsOf("")).toEqual([
      "t.yaml:1:1: the file holds nothing. Begin with `scenario:` and its name",
    ]);
  });

  it("is not judged further where it is no YAML", () => {
    expect(problemsOf("scenario: x\n\tcurrency: EUR\n")).toEqual([
      "t.yaml:2:1: the line is indented with a tab. Indent with spaces, two for each level",
    ]);
  });
});
