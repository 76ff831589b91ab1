import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { composePlan } from "../../src/contract/index.js";
import { settle } from "../../src/planning/index.js";
import { PRINTED_PLAN } from "../support/fixtures/printed-plan.js";
import { smallScenarios } from "../support/random-scenario.js";
import { recompute } from "../support/recompute.js";

/** More plans can be asked for from outside: RECOMPUTE_RUNS=1000 RECOMPUTE_SEED=5. */
const RUNS = Number(process.env.RECOMPUTE_RUNS ?? 40);
const SEED = Number(process.env.RECOMPUTE_SEED ?? 21);

const engines = new Engines();
afterAll(() => engines.close());

type Plan = typeof PRINTED_PLAN;

/** What is found of the plan worked out by hand, with one thing in it changed. */
function foundOf(change: (plan: Plan) => void): string[] {
  const plan = structuredClone(PRINTED_PLAN);
  change(plan);
  return recompute(JSON.stringify(plan));
}

function nth<T>(list: readonly T[], index: number): T {
  const entry = list[index];
  if (entry === undefined) throw new RangeError(`there is no entry ${index}`);
  return entry;
}

const limitOf = (plan: Plan, code: string): Plan["limits"][number] =>
  nth(
    plan.limits.filter((limit) => limit.code === code),
    0,
  );

/** Mistakes written into the plan, and what must be found of each. */
const MISTAKES: readonly [string, (plan: Plan) => void, RegExp][] = [
  ["a transfer more", (p) => p.transfers.push(nth(p.transfers, 0)), /item:leek weight: is 0, recomputed 800/],
  ["a transfer of another weight", (p) => (nth(p.transfers, 15).weight = "11"), /part:peeled green weight/],
  ["a coin lost", (p) => (nth(p.transfers, 11).money = "0.0951"), /part:leek green money/],
  ["a total of grams", (p) => (p.weights.wastedFood = "139"), /weights\.wastedFood: is 139, recomputed 140/],
  ["a total of money", (p) => (p.money.wasted = "0.3332"), /money\.wasted: is 0\.3332, recomputed 0\.3333/],
  ["both sides of an identity", (p) => (p.weights.purchased = "801"), /identity of grams/],
  ["money's identity", (p) => (p.money.spent = "2.11"), /identity of money/],
  ["what a dish weighs", (p) => (nth(p.dishes, 0).weight = "399"), /dish:tart @ Friday weight/],
  ["what a dish costs", (p) => (nth(p.dishes, 0).cost = "0.95"), /dish:tart @ Friday cost: /],
  ["a portion's cost", (p) => (nth(p.dishes, 1).costPerPortion = "0.1822"), /cost of a portion/],
  [
    "spare portions at less than they weigh",
    (p) => {
      nth(p.transfers, 16).weight = "90";
    },
    /spare to refuse: is 90, recomputed 100/,
  ],
  ["food wasted", (p) => (p.waste.foodWasted = "40"), /waste\.foodWasted: is 40, recomputed 140/],
  ["given away", (p) => (p.waste.givenAway = "0"), /waste\.givenAway/],
  ["what a cut loses", (p) => (nth(p.waste.lostInCuts, 0).lostFood = "0"), /food lost in cut 1 of leek/],
  ["peel beyond", (p) => (nth(p.waste.lostInCuts, 0).peelBeyond = "0"), /peel beyond in cut 1 of leek/],
  ["a cut left out", (p) => p.waste.lostInCuts.pop(), /lostInCuts: not one of each cut/],
  ["what a step loses", (p) => (nth(p.waste.lostInSteps, 0).lostFood = "0"), /food lost in peel green: is 0/],
  ["a step left out", (p) => p.waste.lostInSteps.pop(), /food lost in peel green: is 0, recomputed 2\.5/],
  [
    "a step that was not worked",
    (p) => (nth(p.waste.lostInSteps, 0).cutFor = "Saturday"),
    /is stated where it was not worked/,
  ],
  [
    "a step that nobody needed",
    (p) => nth(p.goings, 1).needless.push("peel green"),
    /food lost in peel green: is 2\.5, recomputed 40/,
  ],
  ["lost food in all", (p) => (p.waste.lostFood = "10"), /waste\.lostFood: is 10, recomputed 12\.5/],
  ["avoidable peel", (p) => (p.waste.avoidablePeel = "80"), /waste\.avoidablePeel: is 80, recomputed 20/],
  [
    "peel that was put to use",
    (p) => (nth(p.leftovers, 2).weight = "15"),
    /waste\.avoidablePeel: is 20, recomputed 15/,
  ],
  ["unused", (p) => (p.waste.unusedUsable = "0"), /waste\.unusedUsable: is 0, recomputed 80/],
  ["what is counted", (p) => (p.waste.counted = "192.5"), /waste\.counted: is 192\.5, recomputed 212\.5/],
  [
    "how it is counted",
    (p) => (p.waste.counts.givenAway = "1"),
    /waste\.counted: is 212\.5, recomputed 272\.5/,
  ],
  [
    "the figure of the aim",
    (p) => (p.outcome.objective = "2.49"),
    /outcome\.objective: is 2\.49, recomputed 2\.495/,
  ],
  ["another aim", (p) => (p.aim = "waste"), /outcome\.objective: is 2\.495000, recomputed 212\.5/],
  ["a cost without credit", (p) => (nth(p.keeps, 0).value = "0.10"), /outcome\.objective.*recomputed 2\.519/],
  ["what rounding added", (p) => (p.outcome.rounding = "0"), /outcome\.objective.*recomputed 2\.49$/m],
  ["a bound above", (p) => (p.outcome.bound = "2.6"), /outcome\.bound/],
  ...(
    [
      ["ceiling", "0.2", /ceiling tart Friday: 0\.2381 is above 0\.2/],
      ["destination", "62", /destination staff meal: 62\.5 is above 62/],
      ["chilled", "509", /chilled Friday: 510 is above 509/],
      ["hands", "14", /hands Friday: 15 is above 14/],
      ["vessel", "0", /vessel tray Friday: 1 is above 0/],
      ["pot", "199", /pot peel green Friday: 200 is above 199/],
      ["buying", "1", /buying leek: 2 is above 1/],
      ["portions", "0", /portions soup Friday: 1 is above 0/],
      ["overage", "0", /overage Friday main: 1 is above 0/],
      ["course", "2", /course Friday main: 3 is above 2/],
      ["course dishes", "0", /course dishes Friday main: 1 is above 0/],
      ["keep", "59", /keep leek green: 60 is above 59/],
    ] as const
  ).map(([code, most, found]): [string, (plan: Plan) => void, RegExp] => [
    `${code} over its limit`,
    (p) => (limitOf(p, code).most = most),
    found,
  ]),
  [
    "too few for a diet",
    (p) => (limitOf(p, "diet").least = "4"),
    /diet vegetarian Friday main: 3 is below 4/,
  ],
  [
    "a dish that may be left out but not cooked so seldom",
    (p) => (nth(p.limits, 11).orNone = false),
    /portions pie Saturday: 0 is below 2/,
  ],
  ...[
    "ceiling",
    "destination",
    "chilled",
    "frozen",
    "hands",
    "vessel",
    "pot",
    "buying",
    "portions",
    "overage",
    "course",
    "course dishes",
    "diet",
    "keep",
  ].map((code): [string, (plan: Plan) => void, RegExp] => [
    `what is found of ${code}`,
    (p) => (limitOf(p, code).found = "7"),
    new RegExp(`^${code}.* found: is 7, recomputed`, "m"),
  ]),
  ["a ceiling left out", (p) => p.limits.shift(), /ceiling tart Friday: is not among the limits/],
  ["a limit of no known code", (p) => (nth(p.limits, 0).code = "height"), /no limit is known by this code/],
  [
    "a frozen part in the cold room",
    (p) => (nth(p.parts, 1).frozen = true),
    /frozen Friday found: is 0, recomputed 60/,
  ],
  ["a part past its date", (p) => (nth(p.goings, 1).useBy = "2026-10-08"), /goes into soup after 2026-10-08/],
  ["a dish past its date", (p) => (nth(p.dishes, 1).useBy = "2026-10-09"), /soup is eaten at Saturday/],
  ["a list left out", (p) => Reflect.deleteProperty(p, "limits"), /missing: limits/],
  [
    "a field left out",
    (p) => Reflect.deleteProperty(nth(p.cuts, 0), "leastLoss"),
    /missing: cuts\[\]\.leastLoss/,
  ],
];

describe("a plan recomputed from its JSON alone", () => {
  it("says nothing of one worked out by hand", () => {
    expect(recompute(JSON.stringify(PRINTED_PLAN))).toEqual([]);
  });

  it.each(MISTAKES)("finds %s", (_, change, expected) => {
    expect(foundOf(change).join("\n")).toMatch(expected);
  });

  it(`agrees with ${RUNS} plans of small scenarios`, async () => {
    const faults: string[] = [];
    let plans = 0;
    for (const [index, { scenario }] of fc
      .sample(smallScenarios(), { numRuns: RUNS, seed: SEED })
      .entries()) {
      const settled = await settle(scenario, (model) => solveStages(model, { engines, seconds: 20 }));
      if (settled.kind === "none") continue;
      plans++;
      const { decision, ledger, first, stages } = settled;
      const plan = composePlan(scenario, decision, ledger, {
        outcome: first,
        stages,
        warnings: [],
        reasons: [],
      });
      for (const fault of recompute(JSON.stringify(plan))) faults.push(`scenario ${index}: ${fault}`);
    }
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(RUNS / 3);
  });
});
