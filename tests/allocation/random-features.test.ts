import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Dish, Part, Scenario } from "../../src/kitchen/index.js";
import { smallScenarios } from "../support/random-scenario.js";

const RUNS = 1500;

const anyDish = (fits: (dish: Dish, scenario: Scenario) => boolean) => (scenario: Scenario) =>
  scenario.dishes.some((dish) => fits(dish, scenario));
const hasStep = (name: string) => (scenario: Scenario) => scenario.steps.some((step) => step.name === name);
const classOf = ({ parts }: Scenario, name: string): Part["class"] | undefined =>
  parts.find((part) => part.name === name)?.class;
const takes = ({ lines }: Dish, part: string): boolean =>
  lines.some(({ from }) => from.some((source) => source.part === part));

/** What the referee is there to judge, and in how many of a hundred scenarios it must come up at least. */
const FEATURES: readonly [string, number, (scenario: Scenario) => boolean][] = [
  [
    "spare portions of range lines",
    3,
    (scenario) =>
      scenario.services.some(({ overage }) => !overage.isZero()) &&
      anyDish(({ batch, lines }) => batch !== null && lines.some(({ least, most }) => least !== most))(
        scenario,
      ),
  ],
  ["rates", 5, anyDish(({ lines }) => lines.some(({ from }) => from.some(({ rate }) => !rate.equals(1))))],
  ["shares", 5, anyDish(({ lines }) => lines.some(({ from }) => from.some((each) => each.mostShare.lt(1))))],
  ["lines stated cooked", 10, anyDish(({ lines }) => lines.some(({ stated }) => stated === "cooked"))],
  ["dishes kept over", 5, anyDish(({ keepsDays }) => keepsDays !== null)],
  [
    "by-products that are food",
    8,
    (scenario) =>
      scenario.steps.some(
        ({ yields }) => yields.length > 1 && yields.every(({ part }) => classOf(scenario, part) === "food"),
      ),
  ],
  ["trim credit with a ceiling", 2, (s) => s.costing === "trim credit" && anyDish(hasCeiling)(s)],
  ["sales value with a ceiling", 2, (s) => s.costing === "sales value" && anyDish(hasCeiling)(s)],
  ["ceilings by edible weight", 10, (s) => s.costing === "edible weight" && anyDish(hasCeiling)(s)],
  [
    "ways to cut that lose otherwise",
    30,
    ({ items }) =>
      items.some(({ breakdowns }) => new Set(breakdowns.map(({ loss }) => loss.toString())).size > 1),
  ],
  ["three ways to cut", 3, ({ items }) => items.some(({ breakdowns }) => breakdowns.length > 2)],
  [
    "bones beside peel",
    10,
    ({ items }) =>
      items.some(({ breakdowns }) =>
        breakdowns.some(
          ({ yields }) =>
            yields.some(({ part }) => part.endsWith("bone")) &&
            yields.some(({ part }) => part.endsWith("peel")),
        ),
      ),
  ],
  [
    "a line that takes what is worked and its source",
    1,
    anyDish((dish, { steps }) =>
      steps.some(
        ({ from, yields }) =>
          from.every((part) => takes(dish, part)) && yields.some(({ part }) => takes(dish, part)),
      ),
    ),
  ],
  ["two steps for one part", 5, hasStep("peel by machine")],
  ["peel put to use", 8, hasStep("candy")],
  ["pots of what is inedible", 8, hasStep("pot")],
  ["freezing", 4, hasStep("freeze")],
  ["peel counted in part", 15, ({ wasteCounts }) => wasteCounts?.avoidablePeel.equals("0.5") === true],
  ["unused counted", 30, ({ wasteCounts }) => wasteCounts?.unusedUsable.isZero() === false],
  ["given away counted", 30, ({ wasteCounts }) => wasteCounts?.givenAway.isZero() === false],
  ["items on hand that last", 8, ({ items }) => items.some(({ onHand }) => onHand.some(lasts))],
  ["parts on hand that last", 8, ({ partsOnHand }) => partsOnHand.some(lasts)],
  [
    "stock that is stated to be binned",
    2,
    ({ items, partsOnHand }) =>
      [...items.flatMap(({ onHand }) => onHand), ...partsOnHand].some(
        ({ destination }) => destination !== undefined,
      ),
  ],
  [
    "destinations with a limit",
    15,
    ({ destinations }) => destinations.some(({ end, limit }) => end === "given away" && limit !== null),
  ],
  [
    "destinations that take portions",
    10,
    ({ destinations }) => destinations.some(({ end, takes: of }) => end === "given away" && of.portions),
  ],
  ["a cold room", 5, ({ limits }) => limits.chilled !== null],
  ["a freezer", 1, ({ limits }) => limits.frozen !== undefined],
  ["whole pieces", 8, ({ parts }) => parts.some(({ pieceWeight }) => pieceWeight !== null)],
  ["two forms", 12, ({ items }) => items.some(({ name, of }) => name !== of)],
  ["loose items", 1, ({ items }) => items.some(({ measure }) => measure === "loose")],
  ["what is kept for a use", 10, ({ parts }) => parts.some(({ carry }) => carry !== null)],
  ["hands", 5, ({ limits }) => limits.handsMinutes !== null],
  ["vessels", 5, ({ limits }) => limits.vessels.length > 0],
  ["diets", 4, ({ services }) => services.some(({ diets }) => diets.length > 0)],
  [
    "people with two diets",
    3,
    ({ services }) => services.some(({ diets }) => diets.some((entry) => entry.diets.length > 1)),
  ],
  ["price breaks", 10, ({ items }) => items.some(({ buying }) => buying?.breaks !== undefined)],
  ["least orders", 8, ({ suppliers }) => (suppliers ?? []).some(({ minimum }) => minimum > 0n)],
  ["delivery charges", 8, ({ suppliers }) => (suppliers ?? []).some(({ delivery }) => delivery > 0n)],
];

function hasCeiling({ ceiling }: Dish): boolean {
  return ceiling !== null;
}

function lasts({ lastDay }: { readonly lastDay: number | null }): boolean {
  return lastDay === null || lastDay > 2;
}

describe("scenarios drawn for the referee", () => {
  const drawn = fc.sample(smallScenarios(), { numRuns: RUNS, seed: 3 });

  it.each(FEATURES)("have %s", (_, percent, has) => {
    const found = drawn.filter(({ scenario }) => has(scenario)).length;
    expect((100 * found) / RUNS).toBeGreaterThanOrEqual(percent);
  });
});
