import { describe, expect, it } from "vitest";
import { Decimal, grams, money, NO_MONEY, toGrams } from "../../src/quantity/index.js";
import { problemsOf, resolved } from "../support/resolving.js";
import { TWO_MARROW_DISHES } from "../support/two-marrow-dishes.js";
import { COUNTS_NO_PEEL, COUNTS_PEEL } from "../support/waste-counts.js";

const scenario = resolved(TWO_MARROW_DISHES);
const part = (name: string) => scenario.parts.find((each) => each.name === name);
const dish = (name: string) => scenario.dishes.find((each) => each.name === name);
const d = (text: string) => new Decimal(text);

describe("a scenario that uses nearly every key", () => {
  it("keeps its head", () => {
    const { services, items, parts, steps, dishes, destinations, partsOnHand, ...head } = scenario;
    expect(head).toEqual({
      name: "Two dishes of one marrow",
      locale: "en-GB",
      currency: "GBP",
      aim: "balanced",
      wastePrice: money("4"),
      wage: NO_MONEY,
      costing: "edible weight",
      pricesIncludeTax: false,
      scaleStep: grams("5"),
      wasteCounts: COUNTS_NO_PEEL,
      vulnerableDiners: true,
      rules: "us",
      allergenList: "both",
      firstDate: "2026-10-02",
      limits: { chilled: grams("40000"), handsMinutes: 360, vessels: [] },
    });
  });

  it("counts days, and portions of a course rounded up", () => {
    expect(
      scenario.services.map(({ day, sitting, covers, handsMinutes }) => [day, sitting, covers, handsMinutes]),
    ).toEqual([
      [0, "dinner", 61, 90],
      [1, "lunch", 40, 360],
    ]);
    expect(scenario.services[0]?.courses).toEqual([
      { name: "main", takeUp: d("1"), portions: 61, leastDishes: null, mostDishes: null },
      { name: "side", takeUp: d("0.9"), portions: 55, leastDishes: 1, mostDishes: 2 },
    ]);
    expect(scenario.services[0]?.diets).toEqual([{ diets: ["vegetarian"], covers: 14 }]);
    expect(scenario.services[0]?.overage).toEqual(d("0.05"));
    expect(scenario.services[1]?.courses[0]?.portions).toBe(20);
  });

  it("has the whole item as the file states it, a day less in store for the delivery the day before", () => {
    const { breakdowns, ...item } = scenario.items[0] ?? { breakdowns: [] };
    expect(item).toEqual({
      name: "marrow",
      of: "marrow",
      form: "untrimmed",
      grade: "class 1",
      supplier: "Field & Co",
      handling: "plant",
      inTables: false,
      allergens: ["celery"],
      mayContain: [],
      measure: "whole",
      unitName: "head",
      unitWeight: grams("1400"),
      unitSpread: { ofUnits: d("0.165"), ofFigure: d("0") },
      orderUnit: { name: "head", size: d("1"), weight: grams("1400") },
      buying: {
        price: money("1.35"),
        taxRate: d("0.2"),
        least: 0,
        most: 40,
        deliveries: [0, 1],
        orderBy: "Thursday 14:00",
      },
      onHand: [{ units: d("2"), weight: grams("2800"), value: money("1.20"), lastDay: 1 }],
      keepsDays: 4,
      carry: { use: "Monday soup", limit: grams("1000"), valuePerKilogram: money("0.50") },
      treatment: "wash in cold running water",
      rejectIf: "soft or cut",
      substitute: "courgette",
    });
    expect(
      breakdowns.map(({ name, loss, minutes, how, source }) => [name, loss, minutes, how, source]),
    ).toEqual([
      ["rings", d("20").div(1400), d("3"), "Cut across in 20 mm rings.", "own test"],
      ["all dice", d("0.015"), null, null, "this scenario"],
    ]);
    expect(breakdowns[0]?.yields).toEqual([
      { part: "marrow ring", fraction: d("480").div(1400) },
      { part: "marrow dice", fraction: d("500").div(1400) },
      { part: "marrow peel", fraction: d("400").div(1400) },
    ]);
  });

  it("has the loose item in kilograms, bought by the bag", () => {
    const { measure, unitName, unitWeight, orderUnit, onHand, buying } = scenario.items[1] ?? {};
    expect({ measure, unitName, unitWeight, orderUnit }).toEqual({
      measure: "loose",
      unitName: "kg",
      unitWeight: grams("1000"),
      orderUnit: { name: "bag of 2 kg", size: d("2"), weight: grams("2000") },
    });
    expect(onHand).toEqual([
      { units: d("1.2"), weight: grams("1200"), value: money("2"), lastDay: 0 },
      { units: d("0.5"), weight: grams("500"), value: NO_MONEY, lastDay: 2 },
    ]);
    expect(buying).toMatchObject({ least: 0, most: null, deliveries: [0], price: money("6.20") });
  });

  it("joins what is said of each part", () => {
    expect(part("marrow ring")).toEqual({
      name: "marrow ring",
      item: "marrow",
      class: "food",
      inTables: false,
      foodBy: null,
      isPeel: false,
      allergens: ["celery"],
      keepsDays: 2,
      state: "raw",
      pieceWeight: grams("120"),
      marketValue: money("3"),
      carry: { use: "Monday soup", limit: grams("500"), valuePerKilogram: money("0.40") },
      container: "1/2 tray 65 mm",
    });
    expect(
      scenario.parts.map(({ name, class: partClass, keepsDays }) => [name, partClass, keepsDays]),
    ).toEqual([
      ["marrow ring", "food", 2],
      ["marrow dice", "food", 1],
      ["marrow peel", "inedible", 1],
      ["spinach leaf", "food", 1],
      ["spinach stem", "inedible", 1],
      ["marrow stock", "food", 3],
      ["spent trim", "inedible", 1],
    ]);
    expect(scenario.partsOnHand).toEqual([
      { part: "marrow ring", weight: grams("640"), value: money("0.10"), useBy: "2026-10-02", lastDay: 0 },
    ]);
  });

  it("lets a stock be cooked, of no one item, with the allergens of all that goes into it", () => {
    expect(part("marrow stock")).toMatchObject({ item: null, state: "cooked", allergens: ["celery"] });
    expect(scenario.steps[1]).toEqual({
      name: "pot of stock",
      from: ["marrow peel", "spinach stem"],
      yields: [
        { part: "marrow stock", fraction: d("1") },
        { part: "spent trim", fraction: d("1") },
      ],
      loss: d("0"),
      water: d("1"),
      yieldSpread: { ofUnits: d("0.1"), ofFigure: d("0.1") },
      capacity: grams("4000"),
      minutesPerKilogram: d("4"),
      how: "Simmer 1 h, strain.",
      source: "this scenario",
    });
  });

  it("offers dishes by their course, by name, or once where they state portions", () => {
    expect(
      scenario.dishes.map(({ name, services, portions, optional }) => [name, services, portions, optional]),
    ).toEqual([
      ["marrow bake", [0, 1], null, false],
      ["grilled rings", [0], null, false],
      ["stock cup", [0], { least: 20, most: 30 }, true],
    ]);
  });

  it("reads lines raw and cooked, by weight and by the piece", () => {
    expect(dish("marrow bake")?.lines).toEqual([
      {
        name: "marrow",
        least: grams("150"),
        most: grams("170"),
        stated: "raw",
        cookingYield: d("1"),
        from: [{ part: "marrow dice", rate: d("1"), leastShare: d("0"), mostShare: d("1") }],
      },
      {
        name: "spinach leaf",
        least: grams("30"),
        most: grams("30"),
        stated: "cooked",
        cookingYield: d("0.76"),
        from: [{ part: "spinach leaf", rate: d("1"), leastShare: d("0"), mostShare: d("1") }],
      },
    ]);
    expect(dish("grilled rings")?.lines[0]).toMatchObject({
      least: grams("120"),
      most: grams("240"),
      from: [{ leastShare: d("0.5"), mostShare: d("1") }],
    });
  });

  it("costs staples exactly: by volume, flat, by weight, by the tray", () => {
    expect(dish("marrow bake")?.staples).toEqual([
      {
        name: "olive oil",
        costPerPortion: d("0.12"),
        amount: { value: d("30"), unit: "mL" },
        price: d("4"),
        allergens: [],
      },
      { name: "other staples", costPerPortion: d("0.32"), amount: null, price: null, allergens: [] },
      {
        name: "butter",
        costPerPortion: d("0.09"),
        amount: { value: d("10"), unit: "g" },
        price: d("9"),
        allergens: ["milk", "butterfat"],
      },
      {
        name: "egg",
        costPerPortion: d("0.14"),
        amount: { value: d("1"), unit: "each" },
        price: d("0.14"),
        allergens: [],
      },
      { name: "dressing", costPerPortion: d("0.05"), amount: null, price: null, allergens: ["mustard"] },
    ]);
  });

  it("carries allergens of the dish, its parts and its staples to the dish", () => {
    expect(dish("marrow bake")?.allergens).toEqual(["milk", "celery", "butterfat", "mustard"]);
    expect(dish("stock cup")?.allergens).toEqual(["celery"]);
  });

  it("keeps what the dish sheet prints", () => {
    expect(dish("marrow bake")).toMatchObject({
      batch: { portions: 12, halves: true, vessel: "tray" },
      ceiling: money("0.95"),
      keepsDays: 2,
      minutesPerBatch: d("25"),
      rawEgg: false,
      method: ["Heat the oven to 190 C.", "Bake."],
      treatments: ["boiled"],
      cooking: { equipment: "oven 190 C", time: "25 min", coreTemperature: "75 C", portioning: "one square" },
    });
  });

  it("adds a refuse that takes without limit what nothing else does, what must never be eaten among it", () => {
    const all = { food: true, inedible: true, portions: true };
    expect(scenario.destinations).toEqual([
      {
        name: "staff meal",
        kind: "given away",
        end: "given away",
        takes: { ...all, inedible: false },
        limit: grams("3000"),
      },
      {
        name: "animal feed",
        kind: "animal feed",
        end: "waste",
        takes: { ...all, portions: false },
        limit: null,
      },
      { name: "compost", kind: "waste", end: "waste", takes: all, limit: grams("20000") },
      {
        name: "refuse",
        kind: "waste",
        end: "waste",
        takes: { food: false, inedible: true, portions: true },
        limit: null,
      },
    ]);
  });

  it("is as good with every list element, map and text written another way", () => {
    const other = TWO_MARROW_DISHES.replace("from: [spinach leaf]", "from: spinach leaf")
      .replace("from: marrow ring\n", "from:\n      - marrow ring\n")
      .replace("diets: [vegetarian]", "diets: vegetarian")
      .replace(
        "method: [Heat the oven to 190 C., Bake.]",
        "method:\n      - Heat the oven to 190 C.\n      - Bake.",
      )
      .replaceAll("1400 g", "1.4 kg")
      .replace("400 g, class", '"0.4 kg", class');
    expect(resolved(other)).toEqual(scenario);
  });

  it("has weights that are whole milligrams and come to the unit", () => {
    for (const { unitWeight, breakdowns } of scenario.items) {
      for (const { yields, loss } of breakdowns) {
        const sum = yields.reduce((acc, { fraction }) => acc.plus(fraction), loss);
        expect(sum.times(toGrams(unitWeight)).toDecimalPlaces(40).equals(toGrams(unitWeight))).toBe(true);
      }
    }
  });
});

describe("a scenario with the least that can be said", () => {
  const least = `scenario: Least
currency: EUR
services: [{name: Lunch, date: 2026-10-02}]
items: {leek: {price: 2.00 / kg, breakdowns: {cut: {parts: {white: 60 %, green: 40 %}}}}}
dishes: {soup: {portions: 10, lines: [{amount: 100 g, from: leek white}]}}
`;

  it("has the defaults the format promises", () => {
    const bare = resolved(least);
    expect(bare).toMatchObject({
      locale: "en-GB",
      aim: "waste",
      wastePrice: NO_MONEY,
      wage: NO_MONEY,
      costing: "edible weight",
      pricesIncludeTax: false,
      scaleStep: grams("1"),
      wasteCounts: COUNTS_PEEL,
      vulnerableDiners: false,
      limits: { chilled: null, handsMinutes: null, vessels: [] },
      steps: [],
      partsOnHand: [],
    });
    expect(bare.services[0]).toMatchObject({ sitting: "Lunch", covers: 0, courses: [], overage: d("0") });
    expect(bare.items[0]).toMatchObject({
      form: "whole",
      handling: "plant",
      keepsDays: null,
      orderUnit: { name: "kg", size: d("1"), weight: grams("1000") },
      buying: { least: 0, most: null, deliveries: [0], price: money("2") },
    });
    expect(bare.dishes[0]).toMatchObject({ course: null, batch: null, ceiling: null, services: [0] });
    expect(bare.destinations).toEqual([
      {
        name: "refuse",
        kind: "waste",
        end: "waste",
        takes: { food: true, inedible: true, portions: true },
        limit: null,
      },
    ]);
  });

  it("asks how long an item of no table keeps once the services lie on two days", () => {
    const second = least.replace("2026-10-02}]", "2026-10-02}, {name: Supper, date: 2026-10-03}]");
    expect(problemsOf(second)).toEqual([
      "t.yaml:4:9: how long `leek` keeps is not known, and the plan runs over more than one day. Add `keeps:`, such as `keeps: 5 days`",
    ]);
  });
});
