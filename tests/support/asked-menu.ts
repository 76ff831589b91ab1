import type { Question } from "../../src/allocation/engine.js";
import { buildModel } from "../../src/allocation/formulate/index.js";
import { toMatrix } from "../../src/allocation/matrix.js";
import { type Problem, problemOf } from "../../src/allocation/search/problem.js";
import { generateMenu, type MenuFacts } from "../bench/menus/index.js";

const facts = (stated: Partial<MenuFacts>): MenuFacts => ({
  ...{ seed: 1, items: 5, dishes: 10, days: 2, sittings: 1, menu: "chosen", aim: "balanced" },
  ...stated,
});

/** A generated menu as a question of its own aim, and as the search takes it; small where nothing else is stated. */
export function asked(stated: Partial<MenuFacts>): { question: Question; problem: Problem } {
  const scenario = generateMenu(facts(stated));
  const { model, objectives } = buildModel(scenario);
  const question: Question = { model, objective: objectives[scenario.aim] };
  const problem = problemOf(
    toMatrix(question),
    model.variables.map(({ tag }) => tag),
  );
  return { question, problem };
}
