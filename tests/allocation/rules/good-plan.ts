import type { Decision, Lot, Scenario } from "../../../src/kitchen/index.js";
import {
  Decimal,
  milligrams,
  money,
  NO_MONEY,
  NO_WEIGHT,
  ONE,
  type Weight,
} from "../../../src/quantity/index.js";
import { lastDayOfLot } from "../../../src/safety/index.js";
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
} from "../../support/small-scenario.js";

/** A plan and what was asked for. */
export interface Asked {
  readonly scenario: Scenario;
  readonly decision: Decision;
}

const main = (portions: number) => ({
  ...{ name: "main", portions, takeUp: ONE, leastDishes: 1, mostDishes: 2 },
});
const buying = (price: string, least: number, deliveries: number[]) => ({
  ...{ price: money(price), taxRate: null, least, most: 5, deliveries, orderBy: null },
});
const bin = (name: string, takes: Scenario["destinations"][number]["takes"]) => ({
  ...{ name, kind: "waste" as const, end: "waste" as const, takes, limit: null },
});

/** Something of every rule: invented items, of which the numbers below are worked by hand. */
const SCENARIO: Scenario = scenarioOf({
  services: [
    serviceOf("Friday", 0, {
      covers: 4,
      courses: [main(4)],
      diets: [{ diets: ["vegetarian"], covers: 2 }],
      overage: new Decimal("0.5"),
    }),
    serviceOf("Saturday", 1, { covers: 1, courses: [main(1)] }),
  ],
  items: [
    itemOf(
      "leek",
      200,
      "2.00",
      5,
      [
        breakdownOf(
          "trimmed",
          200,
          { "leek white": 100, "leek green": 60, "leek root": 40 },
          { minutes: ONE },
        ),
      ],
      {
        orderUnit: { name: "bunch of 2", size: new Decimal(2), weight: g(400) },
        buying: buying("2.00", 1, [0]),
        keepsDays: 3,
        carry: { use: "soup", limit: g(400), valuePerKilogram: NO_MONEY },
      },
    ),
    itemOf(
      "egg",
      60,
      "0.20",
      0,
      [breakdownOf("parted", 60, { "egg yolk": 20, "egg white": 30, "egg shell": 10 })],
      { buying: null, onHand: [{ units: new Decimal(3), weight: g(180), value: money("0.60"), lastDay: 0 }] },
    ),
    itemOf(
      "potato",
      1000,
      "1.00",
      5,
      [
        breakdownOf(
          "pared",
          1000,
          { "potato flesh": 800, "potato peel": 150, "potato eye": 50 },
          { minutes: new Decimal(2) },
        ),
      ],
      { measure: "loose", buying: buying("1.00", 0, [0, 1]) },
    ),
  ],
  parts: [
    partOf("leek white", "leek", "food", { keepsDays: 3 }),
    partOf("leek green", "leek", "food", {
      keepsDays: 3,
      carry: { use: "stock", limit: g(100), valuePerKilogram: NO_MONEY },
    }),
    partOf("leek root", "leek", "inedible", { keepsDays: 3 }),
    partOf("leek heart", "leek", "food", { keepsDays: 3 }),
    partOf("leek strand", "leek", "food", { keepsDays: 3 }),
    partOf("leek ice", "leek", "food", { keepsDays: 30, state: "frozen" }),
    partOf("egg yolk", "egg", "food", { keepsDays: 3, pieceWeight: g(20) }),
    partOf("egg white", "egg", "food", { keepsDays: 3 }),
    partOf("egg shell", "egg", "inedible", { keepsDays: 3 }),
    partOf("potato flesh", "potato", "food", { keepsDays: 3 }),
    partOf("potato peel", "potato", "inedible", { keepsDays: 3 }),
    partOf("potato eye", "potato", "never", { keepsDays: 3 }),
    partOf("potato mash", "potato", "food", { keepsDays: 3, state: "cooked" }),
  ],
  steps: [
    stepOf(
      "peel",
      ["leek green"],
      { "leek heart": "0.5", "leek strand": "0.25" },
      { capacity: g(100), minutesPerKilogram: new Decimal(10) },
    ),
    stepOf("boil", ["potato flesh"], { "potato mash": "1.1" }, { water: new Decimal("0.2") }),
    stepOf("freeze", ["leek white"], { "leek ice": "1" }),
  ],
  dishes: [
    dishOf("tart", null, [lineOf(100, ["leek white"])], {
      course: "main",
      diets: ["vegetarian"],
      minutesPerBatch: new Decimal(2),
      ceiling: money("2"),
    }),
    dishOf(
      "hash",
      null,
      [
        lineOf(
          [40, 60],
          [
            { part: "potato mash", leastShare: new Decimal("0.5") },
            { part: "egg white", mostShare: new Decimal("0.5") },
          ],
        ),
      ],
      {
        course: "main",
        services: [0, 1],
        batch: { portions: 4, halves: false, vessel: "tray" },
        keepsDays: 2,
        minutesPerBatch: new Decimal(4),
      },
    ),
    dishOf("salad", [2, 3], [lineOf([15, 60], ["leek heart"])], { optional: true }),
    dishOf("custard", [1, 3], [lineOf(20, ["egg yolk"]), lineOf(50, ["leek ice"])], { services: [1] }),
  ],
  destinations: [
    {
      name: "staff meal",
      kind: "given away",
      end: "given away",
      takes: { food: true, inedible: false, portions: true },
      limit: g(200),
    },
    { ...bin("feed", { food: true, inedible: true, portions: false }), kind: "animal feed" },
    bin("compost", { food: false, inedible: true, portions: false }),
    bin("refuse", { food: true, inedible: true, portions: true }),
  ],
  partsOnHand: [{ part: "potato mash", weight: g(10), value: NO_MONEY, useBy: null, lastDay: 3 }],
  limits: { chilled: g(900), frozen: g(100), handsMinutes: 20, vessels: [{ vessel: "tray", most: 2 }] },
});

const friday = (part: string): Lot => ({ part, origin: { kind: "cut", service: 0 } });
const weights = (parts: Readonly<Record<string, number>>) =>
  Object.entries(parts).map(([part, weight]) => ({ part, weight: mg(weight) }));
/** Grams with decimals as a weight. */
export const mg = (weight: number): Weight => milligrams(BigInt(Math.round(weight * 1000)));
const going = (lot: Lot, dish: string, service: number, line: number, weight: number) => ({
  ...{ lot, dish, service, line, weight: mg(weight), pieces: null },
});
const send = (part: string, destination: string, weight: number) => ({
  ...{ lot: friday(part), destination, weight: mg(weight) },
});

/**
 * Six leeks, four cut on Friday: 400 g of white, 240 of green, 160 of root; two kept. Of the white 300 g are tarts and
 * 100 g ice for Saturday. Of the green 100 g are peeled, 100 kept, 20 given and 20 over. Two of three eggs are parted.
 * 150 g of potato are 120 g of flesh, boiled to 132 g of mash; with the egg white and the mash on hand 202 g of hash.
 */
const DECISION: Decision = {
  purchases: [
    { item: "leek", service: 0, orderUnits: 3, weight: g(1200), cost: money("6") },
    { item: "potato", service: 0, orderUnits: 1, weight: g(1000), cost: money("1") },
  ],
  cuts: [
    {
      ...{ item: "leek", breakdown: "trimmed", service: 0, units: 4, weight: g(800), loss: NO_WEIGHT },
      parts: weights({ "leek white": 400, "leek green": 240, "leek root": 160 }),
    },
    {
      ...{ item: "egg", breakdown: "parted", service: 0, units: 2, weight: g(120), loss: NO_WEIGHT },
      parts: weights({ "egg yolk": 40, "egg white": 60, "egg shell": 20 }),
    },
    {
      ...{ item: "potato", breakdown: "pared", service: 0, units: null, weight: g(150), loss: NO_WEIGHT },
      parts: weights({ "potato flesh": 120, "potato peel": 22.5, "potato eye": 7.5 }),
    },
  ],
  binned: [
    { item: "egg", service: 0, units: 1, weight: g(60) },
    { item: "potato", service: 0, units: null, weight: g(850) },
  ],
  keptItems: [{ item: "leek", service: 1, units: 2, weight: g(400) }],
  preps: [
    {
      ...{
        step: "peel",
        from: friday("leek green"),
        service: 0,
        weight: g(100),
        water: NO_WEIGHT,
        loss: g(25),
      },
      parts: weights({ "leek heart": 50, "leek strand": 25 }),
    },
    {
      ...{
        step: "boil",
        from: friday("potato flesh"),
        service: 0,
        weight: g(120),
        water: g(24),
        loss: g(12),
      },
      parts: weights({ "potato mash": 132 }),
    },
    {
      ...{ step: "freeze", from: friday("leek white"), service: 0, weight: g(100), water: NO_WEIGHT },
      ...{ loss: NO_WEIGHT, parts: weights({ "leek ice": 100 }) },
    },
  ],
  goings: [
    going(friday("leek white"), "tart", 0, 0, 300),
    going(friday("potato mash"), "hash", 0, 0, 132),
    going({ part: "potato mash", origin: { kind: "onHand", index: 0 } }, "hash", 0, 0, 10),
    going(friday("egg white"), "hash", 0, 0, 60),
    going(friday("leek heart"), "salad", 0, 0, 50),
    { ...going(friday("egg yolk"), "custard", 1, 0, 40), pieces: 2 },
    going(friday("leek ice"), "custard", 1, 1, 100),
  ],
  cookings: [
    {
      ...{ dish: "tart", service: 0, portions: 3, served: [{ service: 0, portions: 2 }] },
      spare: [{ destination: "staff meal", portions: 1 }],
    },
    {
      ...{ dish: "hash", service: 0, portions: 4 },
      served: [
        { service: 0, portions: 2 },
        { service: 1, portions: 1 },
      ],
      spare: [{ destination: "staff meal", portions: 1 }],
    },
    { dish: "salad", service: 0, portions: 2, served: [{ service: 0, portions: 2 }], spare: [] },
    { dish: "custard", service: 1, portions: 2, served: [{ service: 1, portions: 2 }], spare: [] },
  ],
  sends: [
    send("leek green", "staff meal", 20),
    send("leek green", "refuse", 20),
    send("leek root", "compost", 160),
    send("leek strand", "refuse", 25),
    send("egg shell", "compost", 20),
    send("potato peel", "compost", 22.5),
    send("potato eye", "compost", 7.5),
  ],
  kept: [
    {
      ...{ lot: friday("leek green"), weight: g(100) },
      lastDay: lastDayOfLot(friday("leek green"), SCENARIO),
    },
  ],
};

export const GOOD: Asked = { scenario: SCENARIO, decision: DECISION };
export { friday };
