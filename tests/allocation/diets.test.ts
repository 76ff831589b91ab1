import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { buildModel, Engines, type Model, PROOF_GAP, solve } from "../../src/allocation/index.js";
import { dietFaults } from "../../src/allocation/verify/serving.js";
import type { DietCovers, Dish, Scenario, Service } from "../../src/kitchen/index.js";
import { Decimal } from "../../src/quantity/index.js";
import { leekItem, leekScenario } from "../support/leek.js";
import { seed } from "../support/random-models.js";
import { dishOf, lineOf, serviceOf } from "../support/small-scenario.js";

const engines = new Engines();
afterAll(() => engines.close());

const tart = (name: string, diets: readonly string[], course: string | null = "main"): Dish =>
  dishOf(name, null, [lineOf(100, ["leek white"])], { course, diets });
const people = (covers: number, ...diets: string[]): DietCovers => ({ diets, covers });

function dinner(covers: number, takeUp: string, diets: readonly DietCovers[]): Service {
  const rate = new Decimal(takeUp);
  const portions = rate.times(covers).ceil().toNumber();
  const course = { name: "main", takeUp: rate, portions, leastDishes: null, mostDishes: null };
  return serviceOf("dinner", 0, { covers, courses: [course], diets });
}

/** Every union of groups, each with what it takes and whether a dish is fit for one of it: Hall's condition in full. */
function everyUnion(diets: readonly DietCovers[], takeUp: Decimal) {
  return Array.from({ length: 2 ** diets.length - 1 }, (_, index) => {
    const union = diets.filter((_group, bit) => ((index + 1) >> bit) % 2 === 1);
    return {
      needed: takeUp.times(union.reduce((sum, { covers }) => sum + covers, 0)).toNumber(),
      fits: (dish: Dish) => union.some((group) => group.diets.every((diet) => dish.diets.includes(diet))),
    };
  });
}

interface Drawn {
  readonly diets: readonly DietCovers[];
  readonly dishes: readonly Dish[];
  readonly takeUp: string;
  readonly covers: number;
  readonly prices: readonly number[];
}

/** Groups and dishes, each dish fit for some of the diets, and now and then a person who needs two at once. */
function drawnDinner(mostGroups: number, mostDishes: number): fc.Arbitrary<Drawn> {
  const fit = fc.array(fc.nat(2), { minLength: mostGroups, maxLength: mostGroups });
  return fc.integer({ min: 2, max: mostGroups }).chain((groups) =>
    drawnOf(
      groups,
      fc.array(
        fit.map((each) => each.flatMap((fits, diet) => (fits === 2 ? [diet] : []))),
        { minLength: 2, maxLength: mostDishes },
      ),
    ),
  );
}

/** Eight groups, and dishes that are fit for two of them each: there are more unions than rows for them. */
const ofManyUnions = drawnOf(
  8,
  fc
    .array(fc.integer({ min: 1, max: 7 }), { minLength: 16, maxLength: 16 })
    .map((steps) => steps.map((step, dish) => [dish % 8, (dish + step) % 8])),
);

function drawnOf(groups: number, fits: fc.Arbitrary<number[][]>): fc.Arbitrary<Drawn> {
  return fc
    .record({
      fits,
      sizes: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: groups, maxLength: groups }),
      joined: fc.boolean(),
      takeUp: fc.constantFrom("1", "0.9", "0.55"),
      others: fc.nat(4),
      prices: fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 16, maxLength: 16 }),
    })
    .map(({ fits: fit, sizes, joined, takeUp, others, prices }) => {
      const diets = sizes.map((size, index) => people(size, `d${index}`));
      if (joined) diets.push(people(1, "d0", "d1"));
      const dishes = fit.map((each, index) =>
        tart(
          `dish ${index}`,
          each.map((diet) => `d${diet}`),
        ),
      );
      const covers = diets.reduce((sum, group) => sum + group.covers, others);
      return { diets, dishes, takeUp, covers, prices };
    });
}

function scenarioOf({ diets, dishes, takeUp, covers }: Drawn): Scenario {
  const leek = leekItem();
  const buying = leek.buying === null ? null : { ...leek.buying, most: 200 };
  return leekScenario(dishes, {
    services: [dinner(covers, takeUp, diets)],
    items: [{ ...leek, buying }],
  });
}

describe("rows of diets", () => {
  const cheapest = async (drawn: Drawn, change: (model: Model, scenario: Scenario) => Model) => {
    const scenario = scenarioOf(drawn);
    const { model, handles } = buildModel(scenario);
    const terms = handles.serves.map(({ site, variable }) => ({
      variable,
      coefficient: drawn.prices[scenario.dishes.indexOf(site.dish)] ?? 0,
    }));
    const question = {
      model: change(model, scenario),
      objective: { sense: "least", terms, constant: 0 },
    } as const;
    const outcome = await solve(question, { engines, engine: "highs", seconds: 20, gap: PROOF_GAP });
    return outcome.kind === "optimal" ? Math.round(outcome.objective) : outcome.kind;
  };
  const inFull =
    (drawn: Drawn) =>
    (model: Model, scenario: Scenario): Model => {
      const { handles } = buildModel(scenario);
      const unions = everyUnion(drawn.diets, new Decimal(drawn.takeUp)).map(({ needed, fits }, index) => ({
        name: `union ${index}`,
        tag: { family: "diet" },
        terms: handles.serves
          .filter(({ site }) => fits(site.dish))
          .map(({ variable }) => ({ variable, coefficient: 1 })),
        lower: needed,
        upper: Number.POSITIVE_INFINITY,
      }));
      return { ...model, rows: [...model.rows.filter(({ tag }) => tag.family !== "diet"), ...unions] };
    };

  it("ask for what every union of groups asks for, said by unions or by who eats what", {
    timeout: 120_000,
  }, async () => {
    const said = { byUnions: { menus: 0, planned: 0 }, byEaters: { menus: 0, planned: 0 } };
    for (const drawn of [
      ...fc.sample(fc.noBias(drawnDinner(4, 4)), { numRuns: 40, seed }),
      ...fc.sample(fc.noBias(ofManyUnions), { numRuns: 10, seed }),
    ]) {
      const { model } = buildModel(scenarioOf(drawn));
      const way = model.variables.some(({ tag }) => tag.family === "diet") ? said.byEaters : said.byUnions;
      way.menus++;
      const found = await cheapest(drawn, (same) => same);
      expect([seed, drawn, found]).toEqual([seed, drawn, await cheapest(drawn, inFull(drawn))]);
      if (found !== "infeasible") way.planned++;
    }
    for (const { menus, planned } of Object.values(said)) {
      expect(menus).toBeGreaterThan(2);
      expect(planned).toBeGreaterThan(0);
    }
  });

  it("leave out the union of groups that no dish is fit for together", () => {
    const rows = (...fits: (readonly string[])[]) =>
      buildModel(
        scenarioOf({
          diets: [people(3, "vegan"), people(2, "gluten free")],
          dishes: fits.map((diets, index) => tart(`dish ${index}`, diets)),
          takeUp: "1",
          covers: 9,
          prices: [],
        }),
      ).model.rows.flatMap(({ name, tag, lower }) => (tag.family === "diet" ? [`${name}: ${lower}`] : []));
    expect(rows(["vegan"], ["gluten free"])).toEqual([
      "vegan at dinner, main: 3",
      "gluten free at dinner, main: 2",
    ]);
    // Of the same dishes, five in all.
    expect(rows(["vegan", "gluten free"], [])).toEqual(["vegan, or gluten free at dinner, main: 5"]);
    // Who is vegan may eat all that is gluten free here.
    expect(rows(["vegan", "gluten free"], ["vegan"])).toEqual([
      "vegan, or gluten free at dinner, main: 5",
      "gluten free at dinner, main: 2",
    ]);
    expect(rows(["vegan", "gluten free"], ["vegan"], ["gluten free"])).toEqual([
      "vegan at dinner, main: 3",
      "gluten free at dinner, main: 2",
      "vegan, or gluten free at dinner, main: 5",
    ]);
  });

  it("stay few for twenty groups and twenty dishes", () => {
    const names = Array.from({ length: 20 }, (_, index) => `d${index}`);
    for (const step of [1, 3, 7]) {
      const { model } = buildModel(
        scenarioOf({
          diets: names.map((name) => people(2, name)),
          dishes: names.map((name, index) =>
            tart(`dish ${index}`, [name, `d${(index + step) % 20}`, `d${(index * step + 5) % 20}`]),
          ),
          takeUp: "1",
          covers: 60,
          prices: [],
        }),
      );
      const mine = <T extends { readonly tag: { readonly family: string } }>(all: readonly T[]) =>
        all.filter(({ tag }) => tag.family === "diet").length;
      expect(mine(model.rows)).toBeLessThanOrEqual(64);
      expect(mine(model.variables)).toBeLessThanOrEqual(60);
    }
  });
});

describe("the check of diets", () => {
  it("finds a fault where some union of groups is short, and only there", () => {
    let short = 0;
    const numRuns = 2000;
    const menu = fc.array(fc.nat(16), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(drawnDinner(5, 5), menu, ({ diets, dishes, takeUp, covers }, eaten) => {
        const portions = new Map(dishes.map((dish, index) => [dish, eaten[index] ?? 0]));
        const fed = everyUnion(diets, new Decimal(takeUp)).every(({ needed, fits }) => {
          const fit = [...portions].reduce((sum, [dish, each]) => sum + (fits(dish) ? each : 0), 0);
          return fit >= needed;
        });
        const faults = dietFaults(dinner(covers, takeUp, diets), portions);
        if (!fed) short++;
        expect(faults.length === 0).toBe(fed);
      }),
      { numRuns, seed },
    );
    expect(short).toBeGreaterThan(numRuns / 10);
    expect(short).toBeLessThan((numRuns * 9) / 10);
  });

  it("says which people are short of portions together", () => {
    const squash = tart("squash", ["vegetarian", "gluten free"]);
    const curry = tart("curry", ["vegetarian"]);
    const pie = tart("pie", []);
    const asked = [
      people(14, "vegetarian"),
      people(10, "gluten free"),
      people(4, "vegetarian", "gluten free"),
    ];
    const faults = (takeUp: string, eaten: readonly [Dish, number][], more: Partial<Service> = {}) =>
      dietFaults({ ...dinner(60, takeUp, asked), ...more }, new Map(eaten));
    expect(
      faults("1", [
        [squash, 28],
        [pie, 32],
      ]),
    ).toEqual([]);
    expect(
      faults("1", [
        [squash, 14],
        [curry, 14],
        [pie, 32],
      ]),
    ).toEqual([]);
    expect(
      faults("1", [
        [squash, 13],
        [curry, 15],
        [pie, 32],
      ]),
    ).toEqual(["vegetarian and gluten free, or gluten free at dinner, main: 13 of 14 portions fit"]);
    // 28 people, of whom 45 % take 12.6.
    expect(
      faults("0.45", [
        [squash, 13],
        [pie, 14],
      ]),
    ).toEqual([]);
    expect(
      faults("0.45", [
        [squash, 12],
        [pie, 15],
      ]),
    ).toEqual([
      "vegetarian and gluten free, or vegetarian, or gluten free at dinner, main: 12 of 13 portions fit",
    ]);
    // Outside the courses nothing counts; where there are none, all does.
    const side = tart("side", ["vegetarian", "gluten free"], "side");
    expect(
      faults("1", [
        [squash, 27],
        [side, 9],
      ]),
    ).toHaveLength(1);
    expect(
      faults(
        "1",
        [
          [squash, 27],
          [side, 1],
        ],
        { courses: [] },
      ),
    ).toEqual([]);
    expect(
      faults(
        "1",
        [
          [squash, 26],
          [side, 1],
        ],
        { courses: [] },
      ),
    ).toEqual(["vegetarian and gluten free, or vegetarian, or gluten free at dinner: 27 of 28 portions fit"]);
  });
});
