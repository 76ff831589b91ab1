import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { Difference, PlanJson } from "../../src/contract/index.js";
import { worthOf } from "../../src/insight/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planningWith, planScenario } from "../../src/planning/index.js";
import { ONE, ZERO } from "../../src/quantity/index.js";
import { smallScenarios } from "../support/random-scenario.js";
import {
  breakdownOf,
  dishOf,
  g,
  itemOf,
  lineOf,
  partOf,
  scenarioOf,
  serviceOf,
  stepOf,
} from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

const SECONDS = 20;
const worth = (scenario: Scenario) => worthOf(scenario, planningWith(engines), { seconds: 60 });
const fullPlan = async (scenario: Scenario) =>
  (await planScenario(scenario, { engines, seconds: SECONDS })).plan;

/** What two full plans differ by, by their own proof, to a millionth; the word where there is no second plan. */
function between(base: PlanJson, changed: PlanJson): string {
  if (changed.outcome.kind === "infeasible") return "no plan";
  if (base.outcome.kind !== "optimal" || changed.outcome.kind !== "optimal") return "not proved";
  return figure(Number(changed.outcome.beforeRounding) - Number(base.outcome.beforeRounding));
}

function said(difference: Difference | null): string {
  if (difference === null) return "not asked";
  if (difference.kind !== "plan") return difference.kind;
  return difference.proved ? figure(Number(difference.aim)) : "not proved";
}

/** The words alike, or the figures to a hundredth and what rounding them made of it. */
function isAlike(one: string, other: string): boolean {
  return one === other || Math.abs(Number(one) - Number(other)) < 0.011;
}

/** Proved to a millionth of itself: of a few hundred grams, to a thousandth of a gram. */
function figure(value: number): string {
  return (Math.round(value * 100) / 100 + 0).toFixed(2);
}

describe("what parts, items and dishes are worth", () => {
  /**
   * Leeks, 400 g at 1.00: 200 g white, 160 g green. Four tarts of 100 g white, a pot of greens of 50 to 90 g a portion
   * for three. Two leeks, 2.00: 400 g white, 320 g green, of which 270 g are eaten and 50 g wasted.
   */
  const kitchen = scenarioOf({
    services: [serviceOf("dinner", 0)],
    items: [
      itemOf("leek", 400, "1.00", 6, [
        breakdownOf("split", 400, { "leek white": 200, "leek green": 160, "leek root": 40 }),
      ]),
    ],
    parts: [
      partOf("leek white", "leek"),
      partOf("leek green", "leek"),
      partOf("leek root", "leek", "inedible"),
    ],
    dishes: [
      dishOf("tart", 4, [lineOf(100, ["leek white"])]),
      dishOf("greens", 3, [lineOf([50, 90], ["leek green"])]),
      dishOf("broth", [0, 2], [lineOf(20, ["leek green"])], { optional: true, staples: [] }),
    ],
  });

  it("are as worked by hand", async () => {
    // The broth takes 40 g of the 50 g left: 10 g are wasted.
    const { outcome, asked, parts, items, dishes, candidates } = await worth(kitchen);
    expect([outcome, asked.done]).toEqual(["worth", asked.of]);
    const [green, white] = ["leek green", "leek white"].map((name) =>
      parts.find(({ part }) => part === name),
    );
    expect(green).toMatchObject({ weight: "320", mostUsed: "310" });
    // 100 g more can only be thrown away; of 100 g less, 90 g come off the greens' 270 g, which may be 150 g.
    expect([said(green?.more ?? null), said(green?.less ?? null)]).toEqual(["100.00", "-10.00"]);
    // Without any use of the green three portions of greens can't be made.
    expect(said(green?.without ?? null)).toBe("no plan");
    // 100 g of white given: two leeks are still needed, 100 g of white over. Taken: a third leek, 100 g white and 160 g green over.
    expect(white).toMatchObject({ weight: "400", wasted: "0", mostUsed: "400" });
    expect([said(white?.more ?? null), said(white?.less ?? null)]).toEqual(["100.00", "260.00"]);
    expect(white?.less).toMatchObject({ netSpend: "1.00", proved: true });
    // A third leek bought stays whole in stock, as it keeps. One fewer, and there is no plan.
    expect(items).toMatchObject([{ item: "leek", units: 2, more: { aim: "0.000", netSpend: "1.00" } }]);
    expect(said(items[0]?.less ?? null)).toBe("no plan");
    expect(items[0]?.more).toMatchObject({
      purchases: [{ kind: "buy", name: "leek", before: "2", after: "3" }],
    });
    // Without tarts one leek is enough for 150 g of green: 200 g white over. Without greens 280 g of green.
    expect(dishes.map(({ dish, without }) => [dish, said(without)])).toEqual([
      ["tart", "190.00"],
      ["greens", "270.00"],
      ["broth", "40.00"],
    ]);
    expect(dishes[0]?.without).toMatchObject({ netSpend: "-1.00" });
    expect(candidates).toEqual([]);
  });

  it("say nothing of how much is of use where a step makes several foods of it", async () => {
    // Two pots of 100 g of tips are half of 400 g of green; the other half, ends nobody asks for, is no less used up.
    const scenario = {
      ...kitchen,
      parts: [...kitchen.parts, partOf("leek tips", "leek"), partOf("leek ends", "leek")],
      steps: [stepOf("split", ["leek green"], { "leek tips": "0.5", "leek ends": "0.5" })],
      dishes: [dishOf("pot", 2, [lineOf(100, ["leek tips"])])],
    };
    const { parts } = await worth(scenario);
    const mostUsed = (name: string) => parts.find(({ part }) => part === name)?.mostUsed;
    expect([mostUsed("leek green"), mostUsed("leek tips")]).toEqual([null, "200"]);
  });

  it("count a dish that is left out at what it would change if it were made", async () => {
    // The broth of white, 150 g: 100 g more than two leeks hold, so a third: 50 g white and 160 g green over, less 10.
    const dishes = [
      ...kitchen.dishes,
      dishOf("white broth", [0, 1], [lineOf(150, ["leek white"])], { optional: true }),
    ];
    const { candidates } = await worth({ ...kitchen, dishes });
    expect(candidates).toMatchObject([
      { dish: "white broth", service: "dinner", made: { kind: "plan", aim: "210.000", netSpend: "1.00" } },
    ]);
  });

  it("equal the difference of two full plans, on random scenarios", { timeout: 60_000 }, async () => {
    const wrong: string[] = [];
    let compared = 0;
    for (const [index, { scenario }] of fc.sample(smallScenarios(), { numRuns: 12, seed: 8 }).entries()) {
      const base = await fullPlan(scenario);
      const answers = await worth(scenario);
      expect(answers.outcome).toBe(base.outcome.kind === "infeasible" ? "no plan" : answers.outcome);
      if (answers.outcome !== "worth") continue;
      for (const [what, answer, changed] of asked(scenario, answers, base)) {
        if (answer === null) continue;
        const expected = between(base, await fullPlan(changed));
        const given = said(answer);
        if (given === "not proved" || expected === "not proved") continue;
        compared++;
        if (!isAlike(given, expected))
          wrong.push(`scenario ${index}, ${what}: ${given}, and two plans differ by ${expected}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(30);
  });
});

/** Every answer beside the scenario it speaks of, changed here by the words of the question alone. */
function asked(
  scenario: Scenario,
  { parts, items, dishes, candidates }: Awaited<ReturnType<typeof worth>>,
  base: PlanJson,
): [string, Difference | null, Scenario][] {
  const services = scenario.services.map(({ name }) => name);
  return [
    ...parts.flatMap(({ part, step, more, less, without }): [string, Difference | null, Scenario][] => {
      const cutFor = [
        ...base.cuts
          .filter((cut) => cut.parts.some((each) => each.part === part))
          .map(({ service }) => service),
        ...base.preps
          .filter((prep) => prep.parts.some((each) => each.part === part))
          .map((prep) => prep.cutFor ?? ""),
      ].map((service) => services.indexOf(service));
      const service = Math.max(0, ...cutFor);
      const weight = g(Number(step));
      const since = { how: "cut", day: scenario.services[service]?.day ?? 0 } as const;
      const gift = { part, weight, value: scenario.wastePrice, useBy: null, lastDay: null, since };
      return [
        [
          `${part} more`,
          more,
          {
            ...scenario,
            partsOnHand: [...scenario.partsOnHand, { ...gift, value: 0n as typeof gift.value }],
          },
        ],
        [
          `${part} less`,
          less,
          {
            ...scenario,
            dishes: [
              ...scenario.dishes,
              dishOf("set aside", 1, [lineOf(Number(step), [part])], { services: [service] }),
            ],
          },
        ],
        [
          `without ${part}`,
          without,
          {
            ...scenario,
            parts: scenario.parts.map((each) => (each.name === part ? { ...each, carry: null } : each)),
            steps: scenario.steps.flatMap((each) => {
              const from = each.from.filter((source) => source !== part);
              return from.length === 0 ? [] : [{ ...each, from }];
            }),
            dishes: scenario.dishes.map((dish) => ({
              ...dish,
              lines: dish.lines.map((line) => ({
                ...line,
                from: line.from.map((source) => ({
                  ...source,
                  leastShare: source.part === part ? ZERO : source.leastShare,
                  mostShare: source.part === part ? ZERO : source.mostShare.times(ONE),
                })),
              })),
            })),
          },
        ],
      ];
    }),
    ...items.flatMap(({ item, units, more, less }): [string, Difference | null, Scenario][] => {
      const bought = (least: number, most: number): Scenario => ({
        ...scenario,
        items: scenario.items.map((each) =>
          each.name === item && each.buying !== null
            ? { ...each, buying: { ...each.buying, least, most } }
            : each,
        ),
      });
      const buying = scenario.items.find(({ name }) => name === item)?.buying;
      const stated = { least: buying?.least ?? 0, most: buying?.most ?? 99 };
      return [
        [`${item} more`, more, bought(units + 1, Math.max(stated.most, units + 1))],
        [`${item} less`, less, bought(Math.min(stated.least, units - 1), units - 1)],
      ];
    }),
    ...dishes.map(({ dish, without }): [string, Difference | null, Scenario] => [
      `without ${dish}`,
      without,
      { ...scenario, dishes: scenario.dishes.filter(({ name }) => name !== dish) },
    ]),
    ...candidates.map(({ dish, service, made }): [string, Difference | null, Scenario] => [
      `${dish} made for ${service}`,
      made,
      {
        ...scenario,
        dishes: scenario.dishes.map((each) => {
          if (each.name !== dish) return each;
          const at = services.indexOf(service);
          const course = scenario.services[at]?.courses.find(({ name }) => name === each.course);
          const least = Math.max(1, each.portions?.least ?? 0);
          const most = Math.max(least, each.portions?.most ?? course?.portions ?? 0);
          return { ...each, services: [at], portions: { least, most }, optional: false };
        }),
      },
    ]),
  ];
}
