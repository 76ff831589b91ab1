import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { termsOf, toMatrix } from "../../src/allocation/matrix.js";
import { planScenario } from "../../src/planning/index.js";
import { scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { marrowBake } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

const tag = { family: "written" };
const variable = (name: string) => ({ name, tag, lower: 0, upper: 9, integer: false });

describe("a coefficient of a billionth or less", () => {
  it("is left out of rows and objective, and one of two billionths is not", () => {
    const coefficients = [1, 1e-9, -1e-9, 5e-10, 1e-12, 2e-9];
    const terms = coefficients.map((coefficient, index) => ({ variable: index, coefficient }));
    const matrix = toMatrix({
      model: {
        name: "small",
        variables: coefficients.map((_, index) => variable(`v${index}`)),
        rows: [{ name: "row", tag, terms, lower: 1, upper: 9 }],
      },
      objective: { sense: "least", terms, constant: 0 },
    });
    expect([...termsOf(matrix, 0)]).toEqual([
      [0, 1],
      [5, 2e-9],
    ]);
    expect([...matrix.cost]).toEqual([1, 0, 0, 0, 0, 2e-9]);
  });

  it("is judged when all of its variable is added up", () => {
    const twice = { variable: 0, coefficient: 1e-9 };
    const matrix = toMatrix({
      model: {
        name: "twice",
        variables: [variable("v")],
        rows: [{ name: "row", tag, terms: [twice, twice], lower: 0, upper: 9 }],
      },
      objective: { sense: "least", terms: [], constant: 0 },
    });
    expect([...termsOf(matrix, 0)]).toEqual([[0, 2e-9]]);
  });

  it("keeps no scenario from being planned: cutting that takes a millionth of a second", async () => {
    const text = marrowBake()
      .replace("services:", "limits: {hands: 1 h}\nservices:")
      .replace("        loss: 20 g", "        loss: 20 g\n        minutes: 0.00000002");
    const { plan } = await planScenario(scenarioOf(text), { engines, seconds: 10 });
    expect(plan.outcome).toMatchObject({ kind: "optimal" });
    expectBalanced(plan);
  });
});
