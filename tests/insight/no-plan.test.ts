import { afterAll, describe, expect, it } from "vitest";
import { anyPoint, Engines } from "../../src/allocation/index.js";
import type { PlanJson } from "../../src/contract/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planScenario } from "../../src/planning/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams, money } from "../../src/quantity/index.js";
import { applyChanges } from "../support/apply-change.js";
import { leekScenario } from "../support/leek.js";
import { dishOf, lineOf, serviceOf, staples } from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

const planOf = async (scenario: Scenario) => (await planScenario(scenario, { engines, seconds: 20 })).plan;
const reasonsOf = async (scenario: Scenario) => {
  const { outcome, reasons } = await planOf(scenario);
  expect(outcome.kind).toBe("infeasible");
  return reasons;
};
/** Whether there is any plan, down to the ledger. */
const kindOf = async (scenario: Scenario) => {
  const settled = await planWithinCeilings(scenario, (model) => anyPoint(model, { engines, seconds: 20 }));
  return settled.kind === "plan" ? "plan" : settled.outcome.kind;
};

/** Leeks of 200 g at 1.00: 100 g white, 60 g green, 40 g root. */
const tart = (portions = 2, stated: Parameters<typeof dishOf>[3] = {}) =>
  dishOf("tart", portions, [lineOf(100, ["leek white"])], stated);
const course = (name: string, portions: number, least: number | null, most: number | null) => ({
  ...{ name, portions, takeUp: serviceOf("x", 0).overage.plus(1), leastDishes: least, mostDishes: most },
});

describe("the smallest change that makes a plan", () => {
  const cases: [string, Scenario, string, string][] = [
    [
      "a ceiling",
      leekScenario([tart(2, { ceiling: money("0.45") })]),
      "ceiling of tart: 0.63",
      "ceiling of tart: 0.62",
    ],
    [
      "covers that need a diet",
      leekScenario([dishOf("tart", null, [lineOf(100, ["leek white"])], { course: "main" })], {
        services: [
          serviceOf("dinner", 0, {
            covers: 2,
            courses: [course("main", 2, null, null)],
            diets: [{ diets: ["vegan"], covers: 1 }],
          }),
        ],
      }),
      "vegan covers at dinner: 0",
      "vegan covers at dinner: 1",
    ],
    [
      "people who need two diets at once",
      leekScenario(
        [
          dishOf("tart", [0, 2], [lineOf(100, ["leek white"])], {
            course: "main",
            diets: ["vegetarian", "nut free"],
          }),
          dishOf("pie", null, [lineOf(60, ["leek green"])], { course: "main" }),
        ],
        {
          services: [
            serviceOf("dinner", 0, {
              covers: 4,
              courses: [course("main", 4, null, null)],
              diets: [
                { diets: ["vegetarian"], covers: 1 },
                { diets: ["nut free"], covers: 1 },
                { diets: ["vegetarian", "nut free"], covers: 1 },
              ],
            }),
          ],
        },
      ),
      "vegetarian and nut free covers at dinner: 0",
      "vegetarian and nut free covers at dinner: 1",
    ],
    [
      "how many dishes a course shows at least",
      leekScenario([dishOf("tart", null, [lineOf(100, ["leek white"])], { course: "main" })], {
        services: [serviceOf("dinner", 0, { covers: 3, courses: [course("main", 3, 2, null)] })],
      }),
      "least dishes of main at dinner: 1",
      "least dishes of main at dinner: 2",
    ],
    [
      "a share",
      leekScenario([
        dishOf("soup", 2, [
          lineOf(100, [{ part: "leek white", mostShare: serviceOf("x", 0).overage.plus("0.4") }]),
        ]),
      ]),
      "most share of leek white in soup: 100 %",
      "most share of leek white in soup: 99 %",
    ],
  ];
  it.each(cases)("names %s, by the step that works and none smaller", async (_, scenario, works, fails) => {
    const reasons = await reasonsOf(scenario);
    expect(reasons.map(({ change }) => change)).toContain(works);
    expect(await kindOf(applyChanges(scenario, fails))).toBe("infeasible");
    for (const reason of reasons) {
      const { change } = reason;
      expect([change, await kindOf(applyChanges(scenario, change))]).toEqual([change, "plan"]);
      for (const smaller of everySmallerStep(reason))
        expect([smaller, await kindOf(applyChanges(scenario, smaller))]).not.toEqual([smaller, "plan"]);
    }
  });
});

/** Every figure between the one that stands in the scenario and the one that a reason names, step by step. */
function everySmallerStep({ change, text }: PlanJson["reasons"][number]): string[] {
  const [subject = "", value = ""] = change.split(": ");
  const [figure = "", ...unit] = value.split(" ");
  const stated = text.match(/(?:from|instead of) ([\d.]+)/)?.[1];
  if (stated === undefined) throw new Error(`"${text}" does not say what it was before`);
  const isMoney = /^ceiling|staples in/.test(subject);
  const step = subject.startsWith("price of") ? 0.001 : isMoney ? 0.01 : 1;
  const count = Math.round(Math.abs(Number(figure) - Number(stated)) / step);
  const direction = Math.sign(Number(figure) - Number(stated));
  const decimals = step === 1 ? 0 : String(step).length - 2;
  return Array.from({ length: Math.max(0, count - 1) }, (_, index) => {
    const smaller = (Number(stated) + direction * step * (index + 1)).toFixed(decimals);
    return `${subject}: ${[smaller, ...unit].join(" ")}`;
  });
}

describe("the smallest pairs, where no single change does", () => {
  // A tart is 1.00 of leek less what its green bears, with 0.50 of pastry; a leek pot is 60 g of green and 0.40 of
  // cream. Both ceilings are below the staples alone: no leek is cheap enough, and neither ceiling helps the other.
  const scenario = leekScenario([
    tart(2, { ceiling: money("0.45"), staples: staples("0.50") }),
    dishOf("pot", 2, [lineOf(60, ["leek green"])], { ceiling: money("0.38"), staples: staples("0.40") }),
  ]);

  it("each give a plan, and no smaller step of either does", { timeout: 60_000 }, async () => {
    const reasons = await reasonsOf(scenario);
    expect(reasons.length).toBeGreaterThan(0);
    for (const { change, text, checked } of reasons) {
      expect(text).toMatch(/^Both together: .+, and .+\.$/);
      expect(checked).toMatch(/^planned again; with the other as it is/);
      expect([change, await kindOf(applyChanges(scenario, change))]).toEqual([change, "plan"]);
      const [first = "", second = ""] = change.split("; ");
      for (const alone of [first, second])
        expect([alone, await kindOf(applyChanges(scenario, alone))]).toEqual([alone, "infeasible"]);
    }
    // By weight 100 of 160 g of a leek is white: 0.625 and 0.50 a tart, 0.375 and 0.40 a pot.
    expect(reasons[0]?.change).toBe("ceiling of tart: 1.13; ceiling of pot: 0.78");
    const cents = (from: number, to: number) =>
      Array.from({ length: to - from }, (_, index) => ((from + index) / 100).toFixed(2));
    for (const less of cents(46, 113))
      expect([
        less,
        await kindOf(applyChanges(scenario, `ceiling of tart: ${less}; ceiling of pot: 0.78`)),
      ]).toEqual([less, "infeasible"]);
    for (const less of cents(39, 78))
      expect([
        less,
        await kindOf(applyChanges(scenario, `ceiling of tart: 1.13; ceiling of pot: ${less}`)),
      ]).toEqual([less, "infeasible"]);
  });
});

describe("a kitchen whose scale reads in ounces", () => {
  it("is given remedies in ounces, which written into the scenario give a plan", async () => {
    // 4 oz of white a portion, of one leek's 100 g (3.527 oz): 3.5 oz is the most in steps of a tenth.
    const line = { ...lineOf(100, ["leek white"]), least: grams("113.398"), most: grams("113.398") };
    const base = leekScenario([dishOf("tart", 1, [line])]);
    const scenario = {
      ...base,
      scaleStep: grams("2.835"),
      items: base.items.map((item) => ({
        ...item,
        buying: item.buying === null ? null : { ...item.buying, most: 1 },
      })),
    };
    const change = "leek white a portion of tart: 3.5 oz";
    const reasons = await reasonsOf(scenario);
    expect(reasons.map((reason) => reason.change)).toContain(change);
    expect(reasons.map(({ text }) => text).join(" ")).toContain(
      "Give 3.5 oz of leek white a portion of tart instead of 4 oz.",
    );
    expect(await kindOf(applyChanges(scenario, change))).toBe("plan");
    expect(await kindOf(applyChanges(scenario, "leek white a portion of tart: 3.6 oz"))).toBe("infeasible");
  });
});
