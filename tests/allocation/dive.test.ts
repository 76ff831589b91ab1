import { expect, it } from "vitest";
import { searchSolver } from "../../src/allocation/engines/highs-model.js";
import { buildModel } from "../../src/allocation/index.js";
import { toMatrix } from "../../src/allocation/matrix.js";
import { dive } from "../../src/allocation/search/dive.js";
import { problemOf, type Solver } from "../../src/allocation/search/problem.js";
import { milligrams } from "../../src/quantity/index.js";
import { generateMenu } from "../bench/menus/index.js";
import { writeQuestion } from "../support/write-model.js";

/** Two dishes that would best be served 1.6 times, of what suffices for `stock` portions, of which so many may be left. */
function divedFor(stock: number, mostLeft = Number.POSITIVE_INFINITY) {
  const question = writeQuestion({
    name: "two dishes",
    least: { above: 1, below: 1, over: 1, under: 1, left: 0 },
    rows: [
      ["wanted of soup", { soup: 1, above: -1, below: 1 }, "=", 1.6],
      ["wanted of salad", { salad: 1, over: -1, under: 1 }, "=", 1.6],
      ["stock", { soup: 1, salad: 1, left: 1 }, "=", stock],
    ],
    whole: ["soup", "salad"],
    between: { left: [0, mostLeft] },
  });
  const names = question.model.variables.map(({ name }) => name);
  const served = ["soup", "salad"].map((name) => names.indexOf(name));
  const tags = names.map((_, column) => ({ family: served.includes(column) ? "serve" : "other" }));
  const problem = problemOf(toMatrix(question), tags);
  const relaxation = searchSolver.relax(problem.matrix);
  const relaxed = relaxation.solve();
  if (relaxed === null) throw new Error("no relaxation");
  let menus = 0;
  const solver: Solver = {
    ...searchSolver,
    improve: (...asked) => {
      menus += 1;
      return searchSolver.improve(...asked);
    },
  };
  const point = dive(problem, solver, { relaxation, relaxed }, () => false);
  relaxation.dispose();
  return { relaxed: served.map((column) => relaxed[column]), menus, served: served.map((at) => point?.[at]) };
}

it("rounds the whole menu at once where that leaves a point", () => {
  expect(divedFor(4)).toEqual({ relaxed: [1.6, 1.6], menus: 2, served: [2, 2] });
});

it("rounds half of the menu, then the rest anew, where all of it at once leaves none", () => {
  expect(divedFor(3.3)).toEqual({ relaxed: [1.6, 1.6], menus: 4, served: [2, 1] });
});

it("finds no point where there is none in whole numbers", () => {
  expect(divedFor(3.3, 0).served).toEqual([undefined, undefined]);
});

it("settles with the menu the digits that its portions are weighed by", () => {
  const menu = generateMenu({
    ...{
      items: 15,
      dishes: 40,
      days: 5,
      sittings: 1,
      menu: "chosen" as const,
      aim: "balanced" as const,
      seed: 1,
    },
  });
  const dishes = menu.dishes.map((dish) => ({
    ...dish,
    lines: dish.lines.map((line) => ({ ...line, most: milligrams((line.most * 11n) / 10n) })),
  }));
  const { model, objectives, handles } = buildModel({ ...menu, dishes });
  expect(handles.portionWeights.size).toBeGreaterThan(40);
  const problem = problemOf(
    toMatrix({ model, objective: objectives.balanced }),
    model.variables.map(({ tag }) => tag),
  );
  const relaxation = searchSolver.relax(problem.matrix);
  const relaxed = relaxation.solve();
  if (relaxed === null) throw new Error("no relaxation");
  const point = dive(problem, searchSolver, { relaxation, relaxed }, () => false);
  relaxation.dispose();
  expect(point).not.toBeNull();
});
