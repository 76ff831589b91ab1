import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { EXIT } from "../../src/commands/terminal.js";
import { wasteCommand } from "../../src/commands/waste.js";
import { readTestCard } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { problemText } from "../../src/reading/index.js";
import { checkTestCard } from "../../src/yields/index.js";
import { scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";

/** Invented, and sound; each case changes one thing of it. */
const SOUND = `scenario: Two days of marrow
currency: EUR
scale_step: 1 g
services:
  - {name: Lunch, date: 2026-10-08, hands: 2 h}
  - {name: Dinner, date: 2026-10-08}
items:
  marrow:
    price: 1.10 / marrow
    tax: 7 %
    unit_weight: 500 g
    keeps: 5 days
    deliveries: 2026-10-08
    on_hand: {amount: 500 g, use_by: 2026-10-09}
    breakdowns: {cut: {parts: {dice: {weight: 60 %}, peel: {weight: 30 %, class: inedible}}, loss: 10 %, minutes: 2}}
dishes:
  soup: {portions: 8, services: [Lunch, Dinner], keeps: 2 days, ceiling: 5, minutes: 20, lines: [{amount: 100 g, from: marrow dice}]}
  stew: {portions: 2, lines: [{amount: 80 g cooked, from: marrow dice, cooking: {yield: 80 %}}], staples: {salt: {amount: 1 g, price: 1.20 / kg}}}
`;
const problems = (text: string) => loadScenarioText("t.yaml", text).problems.map(problemText);

describe("a figure that no kitchen means", () => {
  it("is none of those of a sound scenario", () => {
    expect(problems(SOUND)).toEqual([]);
  });

  it.each([
    [
      "cooking yield over 400 %",
      "yield: 80 %",
      "yield: 401 %",
      "18:89: `401 %` is more than 400 %. Write at most `400 %`",
    ],
    [
      "tax over all",
      "tax: 7 %",
      "tax: 900 %",
      "10:10: `900 %` is more than the whole. Write at most `100 %`",
    ],
    [
      "minutes of a dish over a week",
      "minutes: 20",
      "minutes: 10081",
      "17:86: `10081` is more than 10080. Write at most `10080`",
    ],
    [
      "minutes of a cut over a week",
      "minutes: 2}",
      "minutes: 99999}",
      "15:115: `99999` is more than 10080. Write at most `10080`",
    ],
    [
      "hands over a week",
      "hands: 2 h",
      "hands: 168 h 1 min",
      "5:44: `168 h 1 min` is more than 168 h. Write at most `168 h`",
    ],
    [
      "a scale step over a kilogram",
      "scale_step: 1 g",
      "scale_step: 999999 kg",
      "3:13: `999999 kg` is more than 1 kg. Write at most `1 kg`",
    ],
    [
      "an item that keeps for an age",
      "keeps: 5 days",
      "keeps: 999999999 days",
      "12:12: `999999999 days` is more than 3650 days. Write at most `3650 days`",
    ],
    [
      "a dish that keeps for over ten years",
      "keeps: 2 days",
      "keeps: 3651",
      "17:57: `3651` is more than 3650 days. Write at most `3650 days`",
    ],
    [
      "a price that rounds to nothing",
      "1.10 / marrow",
      "0.00004 / marrow",
      "9:12: `0.00004 / marrow` is less than money is reckoned in. Write at least `0.0001`, or `0`",
    ],
    [
      "a price of a weight that rounds to nothing",
      "1.20 / kg",
      "0.00004 / kg",
      "18:135: `0.00004 / kg` is less than money is reckoned in. Write at least `0.0001`, or `0`",
    ],
    [
      "money that rounds to nothing",
      "ceiling: 5",
      "ceiling: 0.000000001",
      "17:74: `0.000000001` is less than money is reckoned in. Write at least `0.0001`, or `0`",
    ],
    [
      "an amount that rounds to nothing",
      "amount: 100 g",
      "amount: 0.0004 g",
      "17:107: `0.0004 g` is nothing. Write more than zero, or leave it out",
    ],
    [
      "a stock that rounds to nothing",
      "amount: 500 g",
      "amount: 0.0004 g",
      "14:23: `0.0004 g` is nothing. Write more than zero, or leave it out",
    ],
    [
      "a year beyond all plans",
      "use_by: 2026-10-09",
      "use_by: 9999-12-31",
      "14:38: `9999-12-31` is no day that a kitchen plans for. Write a year from 2000 to 2199",
    ],
    [
      "a year before all plans",
      "deliveries: 2026-10-08",
      "deliveries: 1999-12-31",
      "13:17: `1999-12-31` is no day that a kitchen plans for. Write a year from 2000 to 2199",
    ],
    [
      "a use-by date ten years off",
      "use_by: 2026-10-09",
      "use_by: 2036-10-09",
      "14:38: `2036-10-09` is more than ten years from the first service, on 2026-10-08. Write a day near it, or plan what lies so far off in a file of its own",
    ],
    [
      "a service a hundred years off",
      "{name: Dinner, date: 2026-10-08}",
      "{name: Dinner, date: 2126-10-08}",
      "6:26: `2126-10-08` is more than ten years from the first service, on 2026-10-08. Write a day near it, or plan what lies so far off in a file of its own",
    ],
    [
      "a delivery long before",
      "deliveries: 2026-10-08",
      "deliveries: [2026-10-08, 2010-01-01]",
      "13:30: `2010-01-01` is more than ten years from the first service, on 2026-10-08. Write a day near it, or plan what lies so far off in a file of its own",
    ],
  ])("is told with what to write: %s", (_, sound, odd, told) => {
    expect(SOUND).toContain(sound);
    expect(problems(SOUND.replace(sound, odd))).toContain(`t.yaml:${told}`);
  });

  it.each([
    ["yield: 80 %", "yield: 400 %"],
    ["tax: 7 %", "tax: 100 %"],
    ["minutes: 20", "minutes: 10080"],
    ["hands: 2 h", "hands: 168 h"],
    ["keeps: 5 days", "keeps: 3650 days"],
    ["1.10 / marrow", "0.0001 / marrow"],
    ["1.10 / marrow", "0 / marrow"],
    ["1.20 / kg", "0.00004 / g"],
    ["use_by: 2026-10-09", "use_by: 2036-10-07"],
  ])("is not one at the very edge of what may be meant: %s, %s", (sound, edge) => {
    expect(SOUND).toContain(sound);
    expect(problems(SOUND.replace(sound, edge))).toEqual([]);
  });
});

describe("services of one day", () => {
  const served = (lunch: string, dinner: string) =>
    SOUND.replace("hands: 2 h", `at: "${lunch}"`).replace(
      "Dinner, date: 2026-10-08",
      `Dinner, date: 2026-10-08, at: "${dinner}"`,
    );

  it("stand in the order of the clock", () => {
    expect(problems(served("23:59", "00:00"))).toEqual([
      "t.yaml:6:42: `Dinner` stands after `Lunch` and is served earlier that day. Write the services in the order they are served",
    ]);
    expect(problems(served("12:00", "19:00"))).toEqual([]);
    expect(problems(served("12:00", "12:00"))).toEqual([]);
  });
});

describe("a test card", () => {
  const card = (step: string, rind: string) => `item: shoulder
currency: EUR
scale_step: ${step}
ap_weight: 4 kg
ap_price: 5.00 / kg
butchers_test:
  by_products: {rind: ${rind}}
  usable_weight: 3.5 kg
`;
  const told = (text: string) =>
    checkTestCard(readTestCard({ file: "c.yaml", text })).problems.map(problemText);

  it("has no step and no weight that rounds to nothing, by which it would divide", () => {
    expect(told(card("0.0004 g", "0.0004 g"))).toEqual([
      "c.yaml:3:13: `0.0004 g` is nothing. Write more than zero, or leave it out",
      "c.yaml:7:23: `0.0004 g` is nothing. Write more than zero, or leave it out",
    ]);
    expect(told(card("0.001 g", "500 g"))).toEqual([]);
    expect(
      checkTestCard(readTestCard({ file: "c.yaml", text: card("0.0005 g", "500 g") })).card,
    ).not.toBeNull();
  });
});

describe("waste of several files", () => {
  const folder = scratchFolder();
  afterAll(() => folder.remove());

  it("counts no file twice, by whatever path it is named", async () => {
    copyFileSync(join("examples", "smallest.yaml"), join(folder.path, "a.yaml"));
    const [plain, other] = [join(folder.path, "a.yaml"), `${folder.path}/./a.yaml`];
    const { terminal, complained, printed } = aTerminal();
    expect(await wasteCommand([plain, other], { count: "eu", seconds: 1 }, terminal)).toBe(EXIT.wrongInput);
    expect(complained).toEqual([
      `${other}:1:1: the file, or the plan kept beside it, is named twice, and would be counted twice. Name each file once`,
    ]);
    expect(printed).toEqual([]);
  });
});
