import { describe, expect, it } from "vitest";
import { problemsOf, resolved } from "../support/resolving.js";

/** A service with diets on line 4 from column 12 on, and dishes that state what they are fit for. */
function file(diets: string, dishes: readonly string[], covers = "covers: 20"): string {
  return `scenario: t
currency: EUR
services:
  - diets: ${diets}
    name: Lunch
    date: 2026-10-02
    ${covers}
    courses: {main: 100 %}
items:
  leek:
    form: whole
    price: 1.00 / head
    unit_weight: 200 g
    breakdowns: {cut: {parts: {white: 200 g}}}
dishes:
${dishes.map((fit, index) => `  pie ${index}: {course: main, diets: ${fit}, lines: [{amount: 50 g, from: leek white}]}`).join("\n")}
`;
}
const dietsOf = (...args: Parameters<typeof file>) => resolved(file(...args)).services[0]?.diets;
const problems = (...args: Parameters<typeof file>) => problemsOf(file(...args));

const BOTH = ["[vegetarian, gluten free]"];

describe("diets of a service", () => {
  it("are groups of people, and `and` joins what the same people need", () => {
    expect(dietsOf("{vegetarian: 14, gluten free: 2, vegetarian and gluten free: 4}", BOTH)).toEqual([
      { diets: ["vegetarian"], covers: 14 },
      { diets: ["gluten free"], covers: 2 },
      { diets: ["vegetarian", "gluten free"], covers: 4 },
    ]);
  });

  it("are read without the spaces around and between their words", () => {
    const fit = ['[" vegetarian", "gluten  free"]'];
    expect(dietsOf('{"vegetarian   and gluten free ": 4}', fit)).toEqual([
      { diets: ["vegetarian", "gluten free"], covers: 4 },
    ]);
    expect(resolved(file("{vegetarian: 1}", fit)).dishes[0]?.diets).toEqual(["vegetarian", "gluten free"]);
  });

  it("may have an `and` of their own: the longest name that a dish states is read first", () => {
    const fit = ["[no salt and pepper, vegan]", "no salt"];
    const read = (name: string) => dietsOf(`{${name}: 1}`, fit)?.[0]?.diets;
    expect(read("no salt and pepper")).toEqual(["no salt and pepper"]);
    expect(read("vegan and no salt and pepper")).toEqual(["vegan", "no salt and pepper"]);
    expect(read("no salt and pepper and vegan")).toEqual(["no salt and pepper", "vegan"]);
    // What comes first is not read so long that the rest has no name.
    const crossed = ["[a and b, a, b and c]"];
    expect(dietsOf("{a and b and c: 1}", crossed)).toEqual([{ diets: ["a", "b and c"], covers: 1 }]);
  });

  it("are refused where the same people stand there twice", () => {
    expect(problems("{vegetarian and gluten free: 4, gluten free and vegetarian: 2}", BOTH)).toEqual([
      "t.yaml:4:44: covers that need gluten free and vegetarian stand on line 4 already. Add these to them, and leave this entry out",
    ]);
    expect(problems('{vegetarian: 4, "vegetarian ": 2}', BOTH)).toEqual([
      "t.yaml:4:28: covers that need vegetarian stand on line 4 already. Add these to them, and leave this entry out",
    ]);
    expect(problems("{vegetarian and vegetarian: 4}", BOTH)).toEqual([
      "t.yaml:4:13: vegetarian stands here twice. Write it once",
    ]);
    expect(problems('{" ": 0}', BOTH)).toEqual([
      "t.yaml:4:13: a name of nothing stands here. Write a name, a colon and a space, such as `main: 100 %`",
    ]);
  });

  it("are refused where no dish is fit for all of them at once", () => {
    expect(problems("{vegetarian and gluten free: 4}", ["vegetarian", "gluten free"])).toEqual([
      "t.yaml:4:13: no dish offered at `Lunch` is fit for vegetarian and gluten free at once. Add `diets: [vegetarian, gluten free]` to the dishes that are",
    ]);
    expect(problems("{vegetarian and glutin free: 4}", BOTH)).toEqual([
      "t.yaml:4:13: no dish offered at `Lunch` is fit for glutin free. Did you mean `gluten free`?",
    ]);
    expect(problems("{vegetarian and gluten free: 0}", ["vegetarian"])).toEqual([]);
  });

  it("are refused where they are more people than are expected", () => {
    expect(problems("{vegetarian: 14, gluten free: 6}", BOTH)).toEqual([]);
    expect(problems("{vegetarian: 14, gluten free: 7}", BOTH)).toEqual([
      "t.yaml:4:5: 21 covers need a diet, and only 20 are expected. Count each of them once: people who need two diets stand under both at once, such as `vegetarian and gluten free: 4`, and under neither alone",
    ]);
    expect(problems("{vegetarian and gluten free: 21}", BOTH)).toEqual([
      "t.yaml:4:41: 21 covers need vegetarian and gluten free, and only 20 are expected. Write at most 20",
    ]);
  });
});

describe("diets of a dish", () => {
  it("are not joined: what reads as one name of two diets is refused", () => {
    expect(problems("{vegetarian: 1}", ["[vegetarian and gluten free]", ...BOTH])).toEqual([
      "t.yaml:16:33: `vegetarian and gluten free` is stated as one diet, and `vegetarian`, `gluten free` are diets too. Write `[vegetarian, gluten free]`",
    ]);
  });
});
