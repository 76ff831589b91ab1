import { afterAll, describe, expect, it } from "vitest";
import { NOTHING_SHOWN } from "../../src/allocation/formulate/context.js";
import { buildModel } from "../../src/allocation/formulate/index.js";
import { Engines, solve } from "../../src/allocation/index.js";
import { buildLotGraph } from "../../src/allocation/lot-graph.js";
import type { Dish, Item, Part, Scenario } from "../../src/kitchen/index.js";
import { generateMenu } from "../bench/menus/index.js";
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

const heads = itemOf("kale", 400, "1.20", 20, [breakdownOf("picked", 400, { leaf: 240, stem: 120 })]);
const greens = dishOf("greens", 4, [lineOf(60, ["leaf"])], { services: [0, 1, 2] });
const pickle = dishOf("pickle", 4, [lineOf(30, ["stem"])], { services: [0] });
const carry = { use: "stock", limit: g(500), valuePerKilogram: heads.buying?.price ?? 0n } as Part["carry"];
const delivered = { ...heads.buying, deliveries: [0, 1] } as Item["buying"];

/** Three days of greens; leaf and stem keep so many days from their cutting. */
function week(
  leaf: Partial<Part>,
  {
    item = {},
    stem = {},
    dishes = [greens, pickle],
    ...stated
  }: Partial<Omit<Scenario, "items" | "parts">> & {
    readonly item?: Partial<Item>;
    readonly stem?: Partial<Part>;
    readonly dishes?: readonly Dish[];
  } = {},
): Scenario {
  return scenarioOf({
    services: [0, 1, 2].map((day) => serviceOf(`day ${day + 1}`, day)),
    items: [{ ...heads, ...item }],
    parts: [partOf("leaf", "kale", "food", leaf), partOf("stem", "kale", "food", stem)],
    dishes,
    ...stated,
  });
}

const diced = stepOf("dice stems", ["stem"], { dice: "1" });
const peeled = stepOf("peel stems", ["stem"], { dice: "0.8" });
const withDice = [
  partOf("leaf", "kale"),
  partOf("stem", "kale", "food", { pieceWeight: g(40) }),
  partOf("dice", "kale"),
];
const shaved = stepOf("shave stems", ["stem"], { dice: "0.5", shavings: "0.3" });
const stringed = stepOf("string stems", ["stem"], { strings: "0.3", dice: "0.5" });
const soup = dishOf("soup", 4, [lineOf(20, ["dice"])], { services: [0, 1] });
const garnish = dishOf("garnish", 4, [lineOf(5, ["shavings"])], { services: [2] });
const withShavings = [
  ...["leaf", "stem", "dice", "shavings"].map((name) => partOf(name, "kale")),
  partOf("strings", "kale", "inedible"),
];
const secondItem = itemOf("chard", 300, "1.00", 20, [breakdownOf("picked", 300, { leaf: 200 })]);

describe("the services before which an item need be cut", () => {
  it.each<[string, Scenario, number[], number[]]>([
    ["the first alone where all it gives keeps to the end", week({ keepsDays: 3 }), [0, 1, 2], [0]],
    ["none left out while what was cut before is too old", week({ keepsDays: 1 }), [0, 1, 2], [0, 1, 2]],
    [
      "not the last where what was cut the day before is still good",
      week({ keepsDays: 2 }),
      [0, 1, 2],
      [0, 1],
    ],
    [
      "whatever becomes of a part on days on which nobody wants it",
      week({}, { stem: { keepsDays: 1 } }),
      [0, 1, 2],
      [0],
    ],
    ["again after a delivery", week({ keepsDays: 3 }, { item: { buying: delivered } }), [0, 1, 2], [0, 1]],
    [
      "each where what is left is kept as permitted stock",
      week({ keepsDays: 9, carry }),
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "each where hands are short",
      week({ keepsDays: 3 }, { limits: { chilled: null, handsMinutes: 60, vessels: [] } }),
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "each where the cold room is",
      week({ keepsDays: 3 }, { limits: { chilled: g(900), handsMinutes: null, vessels: [] } }),
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "the first where pieces of it are worked without loss",
      { ...week({ keepsDays: 3 }, { steps: [diced] }), parts: withDice },
      [0, 1, 2],
      [0],
    ],
    [
      "each where pieces of it are worked at a loss",
      { ...week({ keepsDays: 3 }, { steps: [peeled] }), parts: withDice },
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "the first where a step at a loss is worked for one thing that is wanted",
      { ...week({}, { steps: [shaved], dishes: [greens, soup] }), parts: withShavings },
      [0, 1, 2],
      [0],
    ],
    [
      "each where it is worked for two",
      { ...week({}, { steps: [shaved], dishes: [greens, soup, garnish] }), parts: withShavings },
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "each where what it gives first is no food",
      { ...week({}, { steps: [stringed], dishes: [greens, soup] }), parts: withShavings },
      [0, 1, 2],
      [0, 1, 2],
    ],
    [
      "the first where two items give one part",
      { ...week({ keepsDays: 3 }), items: [heads, secondItem] },
      [0, 1, 2],
      [0],
    ],
    [
      "each where they give it in pieces",
      { ...week({ keepsDays: 3, pieceWeight: g(20) }), items: [heads, secondItem] },
      [0, 1, 2],
      [0, 1, 2],
    ],
  ])("are %s", (_, scenario, all, needed) => {
    expect(buildLotGraph(scenario).cutServices.get("kale")).toEqual(all);
    expect(buildLotGraph(scenario, "needed").cutServices.get("kale")).toEqual(needed);
  });

  it("are each where an older lot shortens the days on which what is left of a dish may be offered", () => {
    const cooked = { keepsDays: 20, state: "cooked" as const };
    const stew = dishOf("stew", 4, [lineOf(60, ["leaf"])], { services: [0, 1, 2], keepsDays: 9 });
    const from = (days: readonly number[]): Scenario => ({
      ...week(cooked, { dishes: [stew] }),
      services: days.map((day, index) => serviceOf(`service ${index + 1}`, day)),
    });
    // Seven days from the first cut, by the US Food Code 3-501.17(A), reach day 6 and no further.
    expect(buildLotGraph(from([0, 2, 6]), "needed").cutServices.get("kale")).toEqual([0]);
    expect(buildLotGraph(from([0, 2, 7]), "needed").cutServices.get("kale")).toEqual([0, 1]);
  });
});

describe("a model without repeated cuts", () => {
  const engines = new Engines();
  afterAll(() => engines.close());
  /** Charges a lot that is in no dish: nothing but a reason to build every lot. */
  const unasked = {
    lot: { part: "none", origin: { kind: "cut", service: 0 } },
    dish: "none",
    service: 0,
    perKilogram: 0,
    held: false,
  } as const;

  it.each([1, 2, 3, 4, 5, 6, 8, 9])("has as good a best plan as one with all: menu %i", async (seed) => {
    const scenario = generateMenu({
      ...{ items: 3 + (seed % 2), dishes: 8, days: 3, sittings: 1, seed },
      menu: seed % 2 === 0 ? "fixed" : "chosen",
      aim: seed % 3 === 0 ? "cost" : "waste",
    });
    const objectives: number[] = [];
    const wholes: number[] = [];
    for (const tightenings of [[], [unasked]]) {
      const { model, objectives: aims } = buildModel(scenario, { ...NOTHING_SHOWN, tightenings });
      const question = { model, objective: aims[scenario.aim] };
      const outcome = await solve(question, { engines, engine: "highs", seconds: 60, gap: 1e-6 });
      if (outcome.kind !== "optimal") throw new Error(JSON.stringify(outcome));
      objectives.push(outcome.objective);
      wholes.push(model.variables.filter(({ integer }) => integer).length);
    }
    const [needed = Number.NaN, all = Number.NaN] = objectives;
    expect(Math.abs(needed - all)).toBeLessThan(1e-5 * Math.max(1, Math.abs(all)));
    expect(wholes[0]).toBeLessThan(wholes[1] ?? 0);
  });
});
