import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import type { PlanJson } from "../../src/contract/index.js";
import type { Scenario } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import {
  Decimal,
  milligrams,
  roundTogether,
  scale,
  splitByShares,
  type Weight,
} from "../../src/quantity/index.js";
import { problemText } from "../../src/reading/index.js";
import { type Happened, learn, yieldTestsOf } from "../../src/weigh-in/index.js";
import type { Row } from "../../src/weigh-in/row.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { expectBalanced } from "../support/plan-checks.js";
import { seededNumbers } from "../support/seeded-numbers.js";
import { happenedBy, weighedFile } from "../support/weighing.js";
import { aKitchen, type Kitchen, normal, weighed } from "../yields/simulated-kitchens.js";

const SEED = 20261105;
const KITCHENS = 6;
const WEEKS = 5;
/** A kitchen lies so far from the tables, and one day from the next, times sqrt(p (1 - p)). */
const KITCHEN_OFF = 0.15;
const DAY_OFF = 0.03;

const engines = new Engines();
afterAll(() => engines.close());
const { tables } = loadYieldTables();

/** Beets baked whole, their leaves wilted: the same lunch every week. */
function menu(week: number): string {
  return `
scenario: Beets every week
currency: EUR
services: [{name: Lunch, date: 2026-10-${10 + week}, sitting: lunch}]
items:
  beet: {form: bunch with tops, price: 2.40 / bunch, supplier: Field & Co, cut: [roots whole]}
dishes:
  baked beets: {portions: 24, lines: [{amount: 130 g, from: beet root}]}
  wilted leaves: {portions: 8 to 14, lines: [{amount: 70 to 90 g, from: beet leaf}]}
`;
}

function scenarioOf(week: number, ownTests: string | null): Scenario {
  const own = ownTests === null ? null : { file: "yield-tests.csv", text: ownTests };
  const { scenario, problems } = loadScenarioText("beets.yaml", menu(week), undefined, own);
  if (scenario === null) throw new Error(problems.map(problemText).join("\n"));
  return scenario;
}

/** What this kitchen's scale shows of the cut, part for part; dishes are filled as planned, the rest is left. */
function serviceOf(plan: PlanJson, scenario: Scenario, kitchen: Kitchen, next: () => number): string {
  const heavy = new Decimal((1 + 0.04 * normal(next)).toFixed(6));
  const { parts, loss } = weighed(kitchen, 1, DAY_OFF, next);
  const shares = [...parts.map(({ weight }) => weight), loss];
  const names = [...parts.map(({ part }) => part), "loss"];
  const gave = (ap: Weight) => roundTogether(splitByShares(ap, shares), scenario.scaleStep);
  const apOf = (planned: bigint) =>
    roundTogether([scale(milligrams(planned), heavy)], scenario.scaleStep)[0] ?? milligrams(planned);
  const cut = plan.cuts[0];
  if (cut === undefined) throw new Error("nothing is cut");
  const whole = apOf(BigInt(new Decimal(cut.weight).times(1000).toFixed(0)));
  return weighedFile(plan, scenario, ({ what, measure, part }: Row) => {
    if (what === "cut" && measure === "count") return BigInt(cut.units ?? 0) * 1000n;
    if (measure !== "weight") return null;
    if (what === "bought" || what === "cut") return whole;
    return what === "cut gave" ? (gave(whole)[names.indexOf(part)] ?? null) : null;
  });
}

/** How far the shares planned of a cut lay from what this kitchen really gets of it, all added up. */
function errorOf({ rows }: Happened, { truth }: Kitchen): number {
  const cut = rows.filter(({ what }) => what === "cut gave");
  const planned = cut.reduce((sum, row) => sum + Number(row.planned), 0);
  return cut.reduce(
    (sum, row, index) => sum + Math.abs(Number(row.planned) / planned - (truth[index] ?? 0)),
    0,
  );
}

describe("plan, serve, weigh, learn, and plan again", () => {
  it(`closes at every step, and plans err less each week: ${KITCHENS} kitchens of seed ${SEED}`, async () => {
    const item = tables.items.find(({ name, form }) => name === "beet" && form === "bunch with tops");
    const breakdown = item?.breakdowns.find(({ name }) => name === "roots whole");
    if (item === undefined || breakdown === undefined) throw new Error("no such cut in the tables");
    const next = seededNumbers(SEED);
    const errors = Array.from({ length: WEEKS }, () => 0);
    for (let each = 0; each < KITCHENS; each++) {
      const kitchen = aKitchen(item, breakdown, KITCHEN_OFF, next);
      let ownTests: string | null = null;
      for (let week = 0; week < WEEKS; week++) {
        const scenario: Scenario = scenarioOf(week, ownTests);
        const { plan } = await planScenario(scenario, { engines, seconds: 30 });
        expectBalanced(plan);
        const happened: Happened | string[] = happenedBy(
          plan,
          scenario,
          serviceOf(plan, scenario, kitchen, next),
        );
        if (Array.isArray(happened)) throw new Error(happened.join("\n"));
        expectBalanced(happened.plan);
        errors[week] = (errors[week] ?? 0) + errorOf(happened, kitchen) / KITCHENS;
        const weighIn = `week-${week}.weigh-in.csv`;
        const { tests, without } = yieldTestsOf(happened.rows, scenario, tables, weighIn);
        expect({ tests: tests.length, without }).toEqual({ tests: 1, without: [] });
        const lesson = { tests, weighIn, dates: scenario.services.map(({ date }) => date) };
        const learnt = learn("yield-tests.csv", ownTests, lesson, tables);
        if (learnt.kind !== "learnt") throw new Error(learnt.problems.map(problemText).join("\n"));
        expect(learnt.added).toBe(1);
        expect(learn("yield-tests.csv", learnt.text, lesson, tables)).toEqual({
          ...learnt,
          added: 0,
          replaced: 0,
        });
        ownTests = learnt.text;
      }
    }
    console.info(
      `mean error of the parts planned, week by week: ${errors.map((error) => error.toFixed(3)).join(", ")}`,
    );
    const [first = 0, second = 0] = errors;
    expect(second).toBeLessThan(0.6 * first);
    expect(errors.at(-1) ?? 1).toBeLessThan(0.4 * first);
    expect(errors.at(-1) ?? 1).toBeLessThan(second);
  });
});
