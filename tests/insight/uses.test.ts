import { afterAll, describe, expect, it } from "vitest";
import { usesCommand } from "../../src/commands/questions.js";
import { usesOf } from "../../src/insight/index.js";
import { loadWithOffcut } from "../../src/kitchen-files/index.js";
import { pageOf, usesDocument } from "../../src/pages/index.js";
import { grams } from "../../src/quantity/index.js";
import { scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";

/** Invented. Rings may be diced (95 %), dice boiled to stock; the pot holds 1 kg. */
const KITCHEN = `scenario: Plumpet week
currency: EUR
services:
  - {name: Thursday, date: 2026-10-08, sitting: dinner}
  - {name: Friday, date: 2026-10-09, sitting: dinner}
  - {name: Sunday, date: 2026-10-11, sitting: dinner}
items:
  plumpet:
    price: 2.00 / plumpet
    unit_weight: 1000 g
    keeps: 9 days
    allergens: [celery]
    breakdowns:
      cut: {parts: {ring: 500 g, dice: 300 g, peel: {weight: 200 g, class: inedible}}}
parts:
  plumpet ring: {keeps: 2 days, food_by: this test}
  plumpet dice: {keeps: 2 days, food_by: this test}
  plumpet stock: {keeps: 3 days, food_by: this test}
  frozen plumpet: {state: frozen, keeps: 30 days, food_by: this test}
steps:
  dice the rings: {from: plumpet ring, gives: {plumpet dice: 95 %}, loss: 5 %}
  pot of stock: {from: plumpet dice, gives: {plumpet stock: 150 %, spent: {percent: 50 %, class: inedible}}, water: 100 %, capacity: 1 kg}
  freeze: {from: plumpet dice, gives: {frozen plumpet: 100 %}}
destinations: {staff: {kind: given away}, bin: {kind: waste}}
dishes:
  ring plate:
    services: [Thursday, Friday]
    portions: 2 to 3
    lines: [{amount: 200 g, from: plumpet ring}]
    staples: {oil: {amount: 10 g, price: 5.00 / kg}}
  dice soup:
    services: [Friday]
    portions: 20
    batch: {portions: 5, vessel: pot}
    allergens: [milk]
    lines:
      - {amount: 80 g, from: {plumpet dice: {share: 0 to 50 %}, plumpet ring: {}}}
      - {amount: 50 g, from: plumpet dice}
    staples: {cream: 0.20}
  late dish: {services: [Sunday], portions: 4, lines: [{amount: 100 g, from: plumpet ring}]}
  other dish: {services: [Friday], portions: 4, lines: [{amount: 100 g, from: plumpet stock}]}
`;
const RHUBARB = `scenario: Rhubarb
currency: EUR
services: [{name: Lunch, date: 2026-10-08, sitting: lunch}]
items: {rhubarb: {price: 3.00 / kg, form: stalks with leaves}}
dishes: {compote: {portions: 2, lines: [{amount: 100 g, from: rhubarb stalk}]}}
`;
const folder = scratchFolder({
  "rhubarb.yaml": RHUBARB,
  "week.yaml": KITCHEN,
  "wrong.yaml": KITCHEN.replace("currency: EUR", "currency: EUX"),
});
afterAll(() => folder.remove());
const file = `${folder.path}/week.yaml`;

async function uses(part: string, weight: string, useBy?: string) {
  const loaded = await loadWithOffcut(file, {
    part,
    weight: grams(weight),
    ...(useBy === undefined ? {} : { useBy }),
  });
  if (loaded.scenario === null) throw new Error("not loaded");
  return { scenario: loaded.scenario, ...usesOf(loaded.stock, loaded.scenario) };
}

describe("the uses of an offcut", () => {
  it("are the dishes in time, those that take most of it first, worked by hand", async () => {
    const { dishes, useBy } = await uses("plumpet ring", "1300");
    // Two days from Thursday on: until Friday. Sunday's dish is too late.
    expect(useBy).toBe("2026-10-09");
    const figures = dishes.map(({ dish, services, takes, leaves, portions, cooked, steps }) => ({
      dish,
      services,
      takes: takes.toFixed(1),
      leaves: leaves.toFixed(1),
      portions,
      cooked,
      steps,
    }));
    expect(figures).toEqual([
      // 80 g of ring, and 50 g of dice from 52.63 g of rings, a portion: 1,300 / 132.63 = 9.8, in batches of five 5;
      // a batch of five at a time, but the dish is cooked for 20, which take all of it.
      {
        dish: "dice soup",
        services: [1],
        takes: "1300.0",
        leaves: "0.0",
        portions: 5,
        cooked: 20,
        steps: ["dice the rings"],
      },
      // Three portions at each of two services, 200 g each.
      {
        dish: "ring plate",
        services: [0, 1],
        takes: "1200.0",
        leaves: "100.0",
        portions: 6,
        cooked: 6,
        steps: [],
      },
      // 1,000 g of dice fill the pot: 1,052.6 g of rings; four portions of 100 g of stock take 400 / 1.5 / 0.95.
      {
        dish: "other dish",
        services: [1],
        takes: "280.7",
        leaves: "1019.3",
        portions: 4,
        cooked: 4,
        steps: ["dice the rings", "pot of stock"],
      },
    ]);
  });

  it("say what else is needed, and what it costs at least", async () => {
    const { dishes } = await uses("plumpet ring", "1000");
    const plate = dishes.find(({ dish }) => dish === "ring plate");
    expect(
      plate?.needs.map((need) => (need.kind === "staple" ? `${need.amount?.value} ${need.name}` : "")),
    ).toEqual(["50 oil"]);
    expect(plate?.costPerPortion.toFixed(4)).toBe("0.0500");
    // Of 20 soups 1,000 g make 7.54: 12.46 x (80 + 50) g are missing, at 2.00 for 800 g of food.
    const soup = dishes.find(({ dish }) => dish === "dice soup");
    const missing = (20 - 1000 / (80 + 50 / 0.95)) * 130;
    const needed = soup?.needs.flatMap((need) => (need.kind === "part" ? [need.grams.toNumber()] : [])) ?? [];
    expect(needed.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(missing, 6);
    expect(soup?.costPerPortion.toNumber()).toBeCloseTo(0.2 + (missing * 2.5) / 1000 / 20, 4);
    expect(soup?.allergens).toEqual(expect.arrayContaining(["milk", "celery"]));
  });

  it("end where it must be used earlier, and never take more than there is", async () => {
    const { dishes, useBy } = await uses("plumpet ring", "500", "2026-10-08");
    expect(useBy).toBe("2026-10-08");
    expect(dishes.map(({ dish, services, portions }) => [dish, services, portions])).toEqual([
      ["ring plate", [0], 2],
    ]);
    for (const weight of ["1", "130", "999", "5000"])
      for (const { takes, leaves } of (await uses("plumpet dice", weight)).dishes) {
        expect(takes.plus(leaves).toFixed()).toBe(weight);
        expect(leaves.isNegative()).toBe(false);
      }
  });

  it("name freezing and stock as last resorts with their own yields and dates", async () => {
    const { resorts, givenTo } = await uses("plumpet ring", "1000");
    expect(resorts.map(({ grams: weight, ...rest }) => ({ ...rest, grams: weight.toFixed(0) }))).toEqual([
      {
        kind: "frozen",
        part: "frozen plumpet",
        steps: ["dice the rings", "freeze"],
        grams: "950",
        keepsUntil: "2026-11-06",
      },
      {
        kind: "stock",
        part: "plumpet stock",
        steps: ["dice the rings", "pot of stock"],
        grams: "1425",
        keepsUntil: "2026-10-09",
      },
    ]);
    expect(givenTo).toEqual(["staff"]);
  });

  it("print on a page of their own", async () => {
    const { scenario, ...found } = await uses("plumpet ring", "1300");
    const { html } = pageOf(usesDocument(found, scenario));
    expect(html).toContain("ring plate");
    expect(html).toContain("celery");
  });
});

describe("`uses FILE`", () => {
  const run = async (
    path: string,
    part: string,
    weight: string,
    more: { useBy?: string; json?: boolean } = {},
  ) => {
    const { terminal, printed: said, complained: complaints } = aTerminal(100);
    const code = await usesCommand(path, { part, weight, ...more }, terminal);
    return { code, said, complaints };
  };

  it("prints them, and as JSON", async () => {
    const { code, said, complaints } = await run(file, "plumpet ring", "1300 g");
    expect([code, complaints]).toEqual([0, []]);
    expect(said.join("\n")).toContain(
      "  ring plate: Thursday and Friday\n      takes: 1,200 g, leaves 100 g\n      makes: 6 portions",
    );
    const json = await run(file, "plumpet ring", "1300 g", { json: true });
    expect(JSON.parse(json.said.join("\n"))).toMatchObject({
      weight: "1300",
      dishes: [{ takes: "1300.000" }, {}, {}],
    });
  });

  it("names all that is wrong at once, with what was meant", async () => {
    const { code, complaints } = await run(file, "plumpet rign", "2 stone", { useBy: "2026-02-30" });
    expect(code).toBe(2);
    expect(complaints).toEqual([
      "--weight: `stone` is not a unit that is known here. Write a weight with its unit, such as `620 g`",
      "--use-by: `2026-02-30` is no day. Write it as 2026-10-02",
      "plumpet rign: no breakdown, step or table gives a part `plumpet rign`. Did you mean `plumpet ring`?",
    ]);
    expect((await run(`${folder.path}/wrong.yaml`, "x", "1 g")).code).toBe(2);
  });

  it("refuses what must never be eaten, and says who says so", async () => {
    const { code, complaints } = await run(`${folder.path}/rhubarb.yaml`, "rhubarb leaf", "200 g");
    expect(code).toBe(2);
    expect(complaints.join()).toMatch(/rhubarb leaf.*must not be eaten.*Source/);
  });
});
