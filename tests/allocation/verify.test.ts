import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Engines, solveStages, verifyDecision } from "../../src/allocation/index.js";
import { lifeFaults } from "../../src/allocation/verify/closing.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { Decimal, grams, milligrams, money, ONE, type Weight } from "../../src/quantity/index.js";
import { example } from "../support/examples.js";
import { breakdownOf, itemOf, scenarioOf, serviceOf } from "../support/small-scenario.js";

const engines = new Engines();
const scenario = example("demo");
let decision: Decision;

beforeAll(async () => {
  const settled = await planWithinCeilings(scenario, (model) => solveStages(model, { engines, seconds: 30 }));
  if (settled.kind !== "plan") throw new Error("the demo has no plan");
  decision = settled.decision;
});
afterAll(() => engines.close());

const more = (weight: Weight, by = "1"): Weight => milligrams(weight + grams(by));
/** The list with its first entry changed. */
function first<T>(list: readonly T[], change: (entry: T) => T): T[] {
  return list.map((entry, index) => (index === 0 ? change(entry) : entry));
}

describe("the check of a whole plan", () => {
  it("finds nothing wrong with the demo's", () => {
    expect(verifyDecision(decision, scenario)).toEqual([]);
  });

  it("finds a whole item kept too long where another, delivered after it was cut, came on the same day", () => {
    const leek = itemOf("leek", 400, "1.00", 4, [breakdownOf("plain", 400, { white: 400 })], {
      keepsDays: 1,
      onHand: [{ units: ONE, weight: grams("400"), value: money("1"), lastDay: 0 }],
    });
    const twice = scenarioOf({
      services: [serviceOf("lunch", 0), serviceOf("dinner", 0)],
      items: [leek],
      parts: [],
      dishes: [],
    });
    const cut = {
      item: "leek",
      breakdown: "plain",
      units: 1,
      weight: grams("400"),
      parts: [],
      loss: grams("0"),
    };
    const bought = { item: "leek", orderUnits: 1, weight: grams("400"), cost: money("1") };
    const faults = (deliveredFor: number) =>
      lifeFaults(
        {
          ...decision,
          purchases: [{ ...bought, service: deliveredFor }],
          cuts: [{ ...cut, service: 0 }],
          binned: [{ item: "leek", service: 0, units: 1, weight: grams("400") }],
        },
        twice,
      );
    expect(faults(0)).toEqual([]);
    expect(faults(1)).toEqual(["leek: 400 g kept past day 1"]);
  });

  it("finds a part worked after its last day", () => {
    const late = decision.preps.map((prep) => ({ ...prep, service: scenario.services.length - 1 }));
    const shortLived = { ...scenario, parts: scenario.parts.map((part) => ({ ...part, keepsDays: 1 })) };
    const faults = verifyDecision({ ...decision, preps: late }, shortLived);
    expect(faults.filter((fault) => /is worked by .* \d+ days after its last$/.test(fault))).not.toEqual([]);
  });

  it.each<[string, (plan: Decision) => Decision]>([
    [
      "a gram of a cut lost",
      ({ cuts, ...rest }) => ({ ...rest, cuts: first(cuts, (cut) => ({ ...cut, loss: more(cut.loss) })) }),
    ],
    [
      "a gram of one part called another",
      ({ cuts, ...rest }) => ({
        ...rest,
        cuts: first(cuts, (cut) => ({
          ...cut,
          parts: cut.parts.map((part, index) =>
            index < 2 ? { ...part, weight: more(part.weight, index === 0 ? "1" : "-1") } : part,
          ),
        })),
      }),
    ],
    [
      "a step that gives more than it takes",
      ({ preps, ...rest }) => ({
        ...rest,
        preps: first(preps, (prep) => ({ ...prep, loss: more(prep.loss) })),
      }),
    ],
    [
      "a part worked before it is cut",
      ({ preps, ...rest }) => ({
        ...rest,
        preps: preps.map((prep) => ({
          ...prep,
          service: prep.from.origin.kind === "cut" ? -1 : prep.service,
        })),
      }),
    ],
    [
      "twenty grams more into a dish",
      ({ goings, ...rest }) => ({
        ...rest,
        goings: first(goings, (going) => ({ ...going, weight: more(going.weight, "20") })),
      }),
    ],
    ["a going forgotten", ({ goings, ...rest }) => ({ ...rest, goings: goings.slice(1) })],
    [
      "a portion more than is cooked",
      ({ cookings, ...rest }) => ({
        ...rest,
        cookings: first(cookings, (cooking) => ({ ...cooking, portions: cooking.portions + 1 })),
      }),
    ],
    ["a dish nobody cooks", ({ cookings, ...rest }) => ({ ...rest, cookings: cookings.slice(1) })],
    [
      "a dish cooked for a service that does not offer it",
      ({ cookings, ...rest }) => ({
        ...rest,
        cookings: first(cookings, (cooking) => ({ ...cooking, service: 1 })),
      }),
    ],
    [
      "a purchase at another price",
      ({ purchases, ...rest }) => ({
        ...rest,
        purchases: first(purchases, (bought) => ({ ...bought, cost: money("1") })),
      }),
    ],
    [
      "a purchase on a day without delivery",
      ({ purchases, ...rest }) => ({
        ...rest,
        purchases: first(purchases, (bought) => ({ ...bought, service: 3 })),
      }),
    ],
    [
      "an order unit that nobody cuts",
      ({ purchases, ...rest }) => ({
        ...rest,
        purchases: first(purchases, (bought) => ({ ...bought, weight: more(bought.weight, "620") })),
      }),
    ],
  ])("finds %s", (_, change) => {
    expect(verifyDecision(change(decision), scenario)).not.toEqual([]);
  });

  it.each<[string, (asked: Scenario) => Scenario]>([
    ["fewer hands", (asked) => ({ ...asked, limits: { ...asked.limits, handsMinutes: 1 } })],
    [
      "a smaller staff meal",
      (asked) => ({
        ...asked,
        destinations: asked.destinations.map((entry) => ({ ...entry, limit: grams("10") })),
      }),
    ],
    [
      "more covers",
      (asked) => ({
        ...asked,
        services: asked.services.map((service) => ({
          ...service,
          courses: service.courses.map((course) => ({ ...course, portions: course.portions + 1 })),
        })),
      }),
    ],
    [
      "shorter lives",
      (asked) => ({ ...asked, parts: asked.parts.map((part) => ({ ...part, keepsDays: 1 })) }),
    ],
    [
      "no overage",
      (asked) => ({
        ...asked,
        services: asked.services.map((service) => ({ ...service, overage: new Decimal(0) })),
      }),
    ],
    [
      "more guests of a diet",
      (asked) => ({
        ...asked,
        services: asked.services.map((service) => ({
          ...service,
          diets: service.diets.map((diet) => ({ ...diet, covers: 60 })),
        })),
      }),
    ],
  ])("finds that the plan does not do for %s", (_, change) => {
    expect(verifyDecision(decision, change(scenario))).not.toEqual([]);
  });
});
