import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { grams, money } from "../../src/quantity/index.js";
import { scenarioOf } from "../support/examples.js";

const ENGINES = ["highs", "javascript-lp-solver"] as const;
const engines = new Engines();
afterAll(() => engines.close());

interface Stepped {
  /** The scenario with one dish's ceiling at 1.00. */
  readonly file: string;
  /** The dish's portions, and the ceilings to try, in ten-thousandths of the currency unit. */
  readonly portions: number;
  readonly ceilings: readonly [from: number, to: number, by: number];
  /** The least all portions can cost, by trying every cut and every split on the scale, in ten-thousandths. */
  readonly least: (step: number) => number;
}

const range = (from: number, to: number, by: number): number[] =>
  Array.from({ length: Math.floor((to - from) / by) + 1 }, (_, index) => from + index * by);

const HEAD = "currency: EUR\nscenario: t\nservices: [{name: L, date: 2026-10-08}]\n";

const CASES: Readonly<Record<string, Stepped>> = {
  // Florets at 1.10 for 450 g of food of a head, or potato at 0.90 for 960 g: from all potato on, 200 g a portion.
  "one dish of two parts, where the dear one is over": {
    file: `${HEAD}aim: waste
items:
  broccoli: {form: untrimmed head, price: 1.10 / head, cut: [florets]}
  potato: {form: maincrop, price: 0.90 / kg, cut: [skin on]}
dishes:
  stems in butter: {portions: 20, lines: [{amount: 100 g, from: broccoli stem}]}
  soup: {portions: 40, ceiling: 1.00, lines: [{amount: 200 g, from: [broccoli floret, potato skin-on flesh]}]}
`,
    portions: 40,
    ceilings: [3700, 4080, 10],
    least: (step) =>
      Math.min(...range(0, 8000, step).map((dear) => (dear * 11_000) / 450 + ((8000 - dear) * 9000) / 960)),
  },
  // 333 g at 2 a kilogram and 1,017 g at 10: both are used up, and the dish with the ceiling takes what it can of the cheap.
  "two dishes that use up two parts": {
    file: `${HEAD}aim: waste
items:
  ruk: {form: whole, unit_weight: 1017 g, price: 10.17 / head, buy: 0 to 1, breakdowns: {all: {parts: {dice: 1017 g}}}}
  mim: {form: whole, unit_weight: 333 g, price: 0.666 / head, buy: 0 to 1, breakdowns: {all: {parts: {dice: 333 g}}}}
parts: {ruk dice: {food_by: test}, mim dice: {food_by: test}}
dishes:
  stew: {portions: 10, ceiling: 1.00, lines: [{amount: 70 g, from: [ruk dice, mim dice]}]}
  soup: {portions: 10, lines: [{amount: 65 g, from: [mim dice, ruk dice]}]}
`,
    portions: 10,
    ceilings: [4320, 4480, 7],
    least: (step) => Math.min(...range(0, 333, step).map((cheap) => cheap * 20 + (700 - cheap) * 100)),
  },
  // One head must be cut fine, which makes its dice dearer: 2.40 a kilogram, the others' 2.00, together their average.
  "one part from two ways of cutting": {
    file: `${HEAD}aim: waste
items:
  gorl:
    form: whole
    unit_weight: 1000 g
    price: 1.80 / head
    buy: 0 to 6
    breakdowns:
      plain: {parts: {dice: 900 g, rind: {weight: 100 g, class: inedible}}}
      fine: {parts: {dice: 450 g, fine: 300 g, rind: {weight: 250 g, class: inedible}}}
parts: {gorl dice: {food_by: test}, gorl fine: {food_by: test}}
dishes:
  stew: {portions: 10, ceiling: 1.00, lines: [{amount: 130 g, from: gorl dice}]}
  soup: {portions: 1, lines: [{amount: 300 g, from: gorl fine}]}
`,
    portions: 10,
    ceilings: [2580, 2800, 10],
    least: () =>
      Math.min(
        ...range(1, 6, 1).flatMap((fine) =>
          range(0, 6 - fine, 1).flatMap((plain) => {
            const dice = 900 * plain + 450 * fine;
            const cost = 18_000 * plain + (18_000 * 450 * fine) / 750;
            return dice < 1300 ? [] : [(cost * 1300) / dice];
          }),
        ),
      ),
  },
  // The fine part is credited with 1.50 a kilogram used: all heads' dice bear the rest.
  "a part that bears what credits leave": {
    file: `${HEAD}aim: waste
costing: trim credit
items:
  gorl:
    form: whole
    unit_weight: 1000 g
    price: 1.80 / head
    buy: 0 to 6
    breakdowns:
      plain: {parts: {dice: 900 g, rind: {weight: 100 g, class: inedible}}}
      fine: {parts: {dice: 450 g, fine: 300 g, rind: {weight: 250 g, class: inedible}}}
parts: {gorl dice: {food_by: test}, gorl fine: {food_by: test, credit: 1.50 / kg}}
dishes:
  stew: {portions: 10, ceiling: 1.00, lines: [{amount: 130 g, from: gorl dice}]}
  soup: {portions: 1, lines: [{amount: 300 g, from: gorl fine}]}
`,
    portions: 10,
    ceilings: [2690, 3050, 10],
    least: () =>
      Math.min(
        ...range(1, 6, 1).flatMap((fine) =>
          range(0, 6 - fine, 1).flatMap((plain) => {
            const dice = 900 * plain + 450 * fine;
            return dice < 1300 ? [] : [((18_000 * (plain + fine) - 300 * 15) * 1300) / dice];
          }),
        ),
      ),
  },
  // By sales value 450 g of dice and 300 g of fine at 2 to 4 a kilogram share a head as 900 to 1,200.
  "a part that bears what its sales value says": {
    file: `${HEAD}aim: waste
costing: sales value
items:
  gorl:
    form: whole
    unit_weight: 1000 g
    price: 1.80 / head
    buy: 0 to 6
    breakdowns:
      plain: {parts: {dice: 900 g, rind: {weight: 100 g, class: inedible}}}
      fine: {parts: {dice: 450 g, fine: 300 g, rind: {weight: 250 g, class: inedible}}}
parts: {gorl dice: {food_by: test, credit: 2.00 / kg}, gorl fine: {food_by: test, credit: 4.00 / kg}}
dishes:
  stew: {portions: 10, ceiling: 1.00, lines: [{amount: 160 g, from: gorl dice}]}
  soup: {portions: 1, lines: [{amount: 300 g, from: gorl fine}]}
`,
    portions: 10,
    ceilings: [2700, 3250, 20],
    least: () =>
      Math.min(
        ...range(1, 6, 1).flatMap((fine) =>
          range(0, 6 - fine, 1).flatMap((plain) => {
            const dice = 900 * plain + 450 * fine;
            const cost = 18_000 * plain + (18_000 * fine * 900) / 2100;
            return dice < 1600 ? [] : [(cost * 1600) / dice];
          }),
        ),
      ),
  },
  // A gram of leaf counts for half a gram, and is half of the line at most: 20 and 6 a kilogram, six bunches of leaf.
  "a line of parts that count differently, in shares": {
    file: `${HEAD}aim: waste
items:
  ruk: {form: whole, unit_weight: 1000 g, price: 20.00 / head, buy: 0 to 1, breakdowns: {all: {parts: {dice: 1000 g}}}}
  mim: {form: whole, unit_weight: 113 g, price: 0.678 / bunch, buy: 0 to 6, breakdowns: {all: {parts: {leaf: 113 g}}}}
parts: {ruk dice: {food_by: test}, mim leaf: {food_by: test}}
dishes:
  stew:
    portions: 11
    ceiling: 1.00
    lines: [{amount: 61 g, from: {ruk dice: {}, mim leaf: {rate: 0.5, share: 0 to 50 %}}}]
`,
    portions: 11,
    ceilings: [9600, 10_100, 13],
    least: (step) =>
      Math.min(
        ...range(0, 671, step).map((leaf) => leaf * 60 + Math.ceil((671 - leaf / 2) / step) * step * 200),
      ),
  },
  // Rings of 90 g at 12 a kilogram, or dice of the same weight at 5 of which there are 400 g.
  "a line of whole pieces or dice": {
    file: `${HEAD}aim: waste
items:
  ruk: {form: whole, unit_weight: 900 g, price: 10.80 / head, buy: 0 to 1, breakdowns: {all: {parts: {ring: 900 g}, pieces: {ring: 10}}}}
  mim: {form: whole, unit_weight: 400 g, price: 2.00 / head, buy: 0 to 1, breakdowns: {all: {parts: {dice: 400 g}}}}
parts: {ruk ring: {food_by: test}, mim dice: {food_by: test}}
dishes:
  stew: {portions: 10, ceiling: 1.00, lines: [{amount: 90 g, from: [ruk ring, mim dice]}]}
`,
    portions: 10,
    ceilings: [8200, 8700, 10],
    least: () => Math.min(...range(6, 10, 1).map((rings) => rings * 90 * 120 + (900 - rings * 90) * 50)),
  },
};

function at(scenario: Scenario, ceiling: number, step: number): Scenario {
  const dishes = scenario.dishes.map((dish) =>
    dish.ceiling === null ? dish : { ...dish, ceiling: money((ceiling / 10_000).toFixed(4)) },
  );
  return { ...scenario, dishes, scaleStep: grams(BigInt(step)) };
}

describe("a ceiling stepped finely", () => {
  it.each(Object.keys(CASES).flatMap((name) => [1, 5].map((step) => [name, step] as const)))(
    "%s, on a scale of %i g: there is a plan wherever trying every split finds one, and above it",
    async (name, step) => {
      const { file, portions, ceilings, least } = CASES[name] as Stepped;
      const scenario = scenarioOf(file);
      const lowest = least(step);
      const wrong: string[] = [];
      let below = 0;
      let above = 0;
      for (const engine of ENGINES) {
        let found = false;
        for (const ceiling of range(...ceilings)) {
          const settled = await planWithinCeilings(at(scenario, ceiling, step), (model) =>
            solveStages(model, { engines, engine, seconds: 10 }),
          );
          const isPlan = settled.kind === "plan";
          const { bound, objective } = isPlan ? settled.first : { bound: 0, objective: 0 };
          // A hair above the least, so that no float of this test decides.
          if (ceiling * portions >= lowest + 1e-6) above++;
          else below++;
          if (!isPlan && (found || ceiling * portions >= lowest + 1e-6))
            wrong.push(`${engine}, ${ceiling}: none`);
          if (bound > objective + 1e-6) wrong.push(`${engine}, ${ceiling}: bound above objective`);
          found ||= isPlan;
        }
      }
      expect(wrong).toEqual([]);
      expect(above).toBeGreaterThan(10);
      expect(below + above).toBe(2 * range(...ceilings).length);
    },
  );
});
