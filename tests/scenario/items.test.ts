import { describe, expect, it } from "vitest";
import { Decimal, grams, money } from "../../src/quantity/index.js";
import type { YieldTables } from "../../src/yields/index.js";
import { NO_TABLES, problemsOf, resolved, tableItem } from "../support/resolving.js";

const d = (text: string) => new Decimal(text);

const TABLES: YieldTables = {
  ...NO_TABLES,
  items: [
    tableItem(
      "marrow",
      "untrimmed",
      "diced",
      [
        ["dice", "80", "food", 3, null],
        ["peel", "18", "inedible", 1, null],
      ],
      {
        allergens: ["celery"],
        treatment: "wash",
      },
    ),
    tableItem("leek", "untrimmed", "cut", [
      ["white", "60", "food", 4, null],
      ["green", "40", "food", 2, null],
    ]),
    tableItem("leek", "trimmed", "cut", [["white", "100", "food", 4, null]]),
    tableItem(
      "egg",
      "large",
      "separated",
      [
        ["yolk", "30", "food", 1, 1],
        ["white", "58", "food", 2, null],
        ["shell", "12", "inedible", 1, null],
      ],
      {
        unitName: "egg",
        unitWeight: grams("57"),
        handling: "egg",
        keepsDays: 21,
        allergens: ["egg"],
      },
    ),
    tableItem(
      "spinach",
      "loose",
      "picked",
      [
        ["leaf", "72", "food", 2, null],
        ["stem", "28", "food", 2, null],
      ],
      {
        measure: "loose",
        unitName: "kg",
        unitWeight: grams("1000"),
        keepsDays: 3,
      },
    ),
  ],
};

/** A scenario of one item, and a dish of one of its parts. */
function scenario(item: string, lines: string, part: string): string {
  return `scenario: t
currency: EUR
services: [{name: Lunch, date: 2026-10-02}, {name: Supper, date: 2026-10-03}]
items:
  ${item}: {${lines}}
dishes: {dish: {portions: 10, lines: [{amount: 50 g, from: ${part}}]}}
`;
}
const marrow = (lines: string) => scenario("marrow", lines, "marrow dice");
const spinach = (lines: string) => scenario("spinach", lines, "spinach leaf");
const egg = (lines: string) => scenario("egg", lines, "egg white");
const itemOf = (text: string) => resolved(text, TABLES).items[0];

describe("a misspelt item of the tables", () => {
  it("is the one problem where its parts are spelt as the tables do", () => {
    const text = marrow("price: 1.35 / head").replace("  marrow:", "  marow:");
    expect(problemsOf(text, TABLES)).toEqual([
      "t.yaml:5:3: no yield table holds `marow`. Did you mean `marrow`?",
    ]);
  });
});

describe("an item of the tables", () => {
  it("takes from them what the scenario does not say", () => {
    expect(itemOf(marrow("price: 1.35 / head"))).toMatchObject({
      form: "untrimmed",
      handling: "plant",
      allergens: ["celery"],
      measure: "whole",
      unitName: "head",
      unitWeight: grams("600"),
      keepsDays: 5,
      treatment: "wash",
      breakdowns: [{ name: "diced", loss: d("0.02") }],
    });
  });

  it("weighs what today's heads weigh, its percents holding", () => {
    const item = itemOf(marrow("price: 1.35 / head, unit_weight: 620 g"));
    expect(item?.unitWeight).toBe(grams("620"));
    expect(item?.breakdowns[0]?.yields[0]).toEqual({ part: "marrow dice", fraction: d("0.8") });
  });

  it("adds its own allergens, and puts its own words first", () => {
    const item = itemOf(
      marrow("price: 1 / head, allergens: [mustard, celery], treatment: peel, handling: meat, keeps: 2 days"),
    );
    expect(item).toMatchObject({
      allergens: ["celery", "mustard"],
      treatment: "peel",
      handling: "meat",
      keepsDays: 2,
    });
  });

  it("may have own breakdowns that replace those of the same name, and a choice among all", () => {
    const own = "breakdowns: {diced: {parts: {dice: 75 %, peel: 25 %}}, halved: {parts: {half: 100 %}}}";
    const names = (lines: string) =>
      itemOf(marrow(`price: 1 / head, ${lines}`))?.breakdowns.map(({ name }) => name);
    expect(names(own)).toEqual(["diced", "halved"]);
    expect(names(`${own}, cut: diced`)).toEqual(["diced"]);
    const [diced] = itemOf(marrow(`price: 1 / head, ${own}`))?.breakdowns ?? [];
    expect(diced?.yields[0]?.fraction).toEqual(d("0.75"));
    expect(diced?.source).toBe("this scenario");
  });

  it("gives its own parts the class and keeping that the tables give them", () => {
    const own = "breakdowns: {thick: {parts: {dice: 70 %, peel: 30 %}}}, cut: thick";
    const { parts } = resolved(marrow(`price: 1 / head, ${own}`), TABLES);
    expect(parts.map(({ name, class: partClass, keepsDays }) => [name, partClass, keepsDays])).toEqual([
      ["marrow dice", "food", 3],
      ["marrow peel", "inedible", 1],
    ]);
  });

  it("moves a counted part in pieces of today's weight, rounded down to the milligram", () => {
    const pieceWeight = (lines: string) =>
      resolved(egg(`price: 0.20 / egg${lines}`), TABLES).parts.find(({ name }) => name === "egg yolk")
        ?.pieceWeight;
    expect(pieceWeight("")).toBe(grams("17.1"));
    expect(pieceWeight(", unit_weight: 57.003 g")).toBe(grams("17.1"));
    expect(pieceWeight(", unit_weight: 60 g")).toBe(grams("18"));
  });

  it("is named, or its form is, with what was meant", () => {
    const lines = "price: 2.00 / kg";
    expect(problemsOf(scenario("marow", "price: 1 / head", "marow dice"), TABLES)).toEqual([
      "t.yaml:5:3: no yield table holds `marow`. Did you mean `marrow`?",
    ]);
    expect(problemsOf(scenario("turnip", "price: 1 / head", "turnip dice"), TABLES)).toEqual([
      "t.yaml:5:3: no yield table holds `turnip`. Give it `breakdowns:` of its own",
    ]);
    expect(problemsOf(scenario("leek", lines, "leek white"), TABLES)).toEqual([
      "t.yaml:5:3: the tables hold `leek` in several forms. Add `form:` with one of: `untrimmed`, `trimmed`",
    ]);
    expect(problemsOf(scenario("leek", `${lines}, form: untrimed`, "leek white"), TABLES)).toEqual([
      "t.yaml:5:34: the tables hold no form `untrimed` of `leek`. Did you mean `untrimmed`?",
    ]);
    expect(problemsOf(scenario("leek", `${lines}, form: baby`, "leek white"), TABLES)).toEqual([
      "t.yaml:5:34: the tables hold no form `baby` of `leek`. Write one of: `untrimmed`, `trimmed`",
    ]);
    expect(
      resolved(scenario("leek", "price: 1 / head, form: trimmed", "leek white"), TABLES).items[0]?.form,
    ).toBe("trimmed");
  });

  it("names a breakdown that is not there, and judges nothing by it", () => {
    expect(problemsOf(marrow("price: 1 / head, cut: [dicd]"), TABLES)).toEqual([
      "t.yaml:5:35: `marrow` has no breakdown `dicd`. Did you mean `diced`?",
    ]);
  });

  it("has parts, one of which a dish names in full", () => {
    const of = (part: string) => problemsOf(scenario("egg", "price: 0.20 / egg", part), TABLES);
    expect(of("yolk")).toEqual([
      "t.yaml:6:60: no breakdown, step or table gives a part `yolk`. Did you mean `egg yolk`?",
    ]);
    expect(of("egg")).toEqual([
      "t.yaml:6:60: `egg` is an item, and a part of it belongs here. Write one of its parts: `egg yolk`, `egg white`, `egg shell`",
    ]);
    expect(of("egg foam")).toEqual([
      "t.yaml:6:60: no breakdown, step or table gives a part `egg foam`. Write the item and the part, such as `marrow ring`",
    ]);
  });

  it("must give what a dish is taken from", () => {
    const own = "breakdowns: {halved: {parts: {half: 100 %}}}, cut: halved";
    expect(problemsOf(marrow(`price: 1 / head, ${own}`), TABLES)).toEqual([
      "t.yaml:6:60: no breakdown or step in use gives `marrow dice`. Add the breakdown to `cut:`, or take the line from another part",
    ]);
  });
});

describe("an order unit", () => {
  const order = (text: string) => {
    const item = itemOf(text);
    return [item?.orderUnit, item?.buying?.price];
  };

  it("is a head, a case, or a head at a price by weight, for what is cut by the unit", () => {
    expect(order(marrow("price: 1.35 / head"))).toEqual([
      { name: "head", size: d("1"), weight: grams("600") },
      money("1.35"),
    ]);
    expect(order(marrow("price: 1.35 each"))[0]).toMatchObject({ name: "head" });
    expect(order(marrow("price: 8.40 / case of 6"))).toEqual([
      { name: "case of 6", size: d("6"), weight: grams("3600") },
      money("8.40"),
    ]);
    expect(order(egg("price: 4.20 / tray of 30"))).toEqual([
      { name: "tray of 30", size: d("30"), weight: grams("1710") },
      money("4.20"),
    ]);
    expect(order(marrow("price: 2.50 / kg"))).toEqual([
      { name: "head", size: d("1"), weight: grams("600") },
      money("1.50"),
    ]);
  });

  it("is a step of weight or a bag, for what is cut by weight", () => {
    expect(order(spinach("price: 5.00 / kg"))).toEqual([
      { name: "kg", size: d("1"), weight: grams("1000") },
      money("5"),
    ]);
    expect(order(spinach("price: 5.00 / kg, order_in: 250 g"))).toEqual([
      { name: "250 g", size: d("0.25"), weight: grams("250") },
      money("1.25"),
    ]);
    expect(order(spinach("price: 0.50 / 100 g"))[1]).toBe(money("5"));
    expect(order(spinach("price: 2.00 / lb"))).toEqual([
      { name: "lb", size: d("0.453592"), weight: grams("453.592") },
      money("2.0000"),
    ]);
    expect(order(spinach("price: 6.20 / bag of 5 kg"))).toEqual([
      { name: "bag of 5 kg", size: d("5"), weight: grams("5000") },
      money("6.20"),
    ]);
  });

  it("is a bunch where its weight is stated", () => {
    expect(itemOf(spinach("price: 1.10 / bunch, unit_weight: 250 g"))).toMatchObject({
      measure: "whole",
      unitName: "bunch",
      orderUnit: { name: "bunch", weight: grams("250") },
    });
  });

  it.each([
    [
      marrow("price: 1.35 / bunch"),
      "5:19: the price is for a bunch, and `marrow` is counted by the head. Write `1.35 / head`, or the price for a weight",
    ],
    [
      marrow("price: 18.00 / haed, unit_weight: 700 g"),
      "5:19: the price is for a haed, and `marrow` is counted by the head. Did you mean `18 / head`?",
    ],
    [
      marrow("price: 18.00 / case, unit_weight: 700 g"),
      "5:19: the price is for a case, and how many that holds is not said. Write how many, such as `18 / case of 6`, or the price of one",
    ],
    ...["18.00 / case, unit_weight: 700 g", "18.00 / case"].map((price) => [
      marrow(`price: ${price}, keeps: 5 days, breakdowns: {cut: {parts: {dice: 100 %}}}`).replaceAll(
        "marrow",
        "gourd",
      ),
      "5:18: the price is for a case, and how many that holds is not said. Write how many, such as `18 / case of 6`, or the price of one",
    ]),
    [
      marrow("price: 6.20 / bag of 5 kg"),
      "5:19: a bag of 5 kg is priced by weight, and whole units are bought by count. Write how many it holds, such as `6.2 / bag of 8`",
    ],
    [
      marrow("price: 1.10 / L"),
      "5:19: `marrow` is priced by volume, and what that weighs is not known. Write the price for a weight, such as `4.00 / kg`",
    ],
    [
      marrow("price: 1 / head, order_in: 500 g"),
      "5:39: `order_in` is for what is cut and priced by weight, and `marrow` is not. Leave it out, or write the price for a weight",
    ],
    [
      spinach("price: 1.10 / bunch"),
      "5:13: what a bunch of `spinach` weighs is not known. Add `unit_weight:`, such as `unit_weight: 620 g`, or write the price for a weight",
    ],
    [
      marrow("supplier: x"),
      "5:3: `marrow` has no price. Add `price:`, such as `price: 1.35 / head`, or `buy: no`",
    ],
  ])("is refused where it cannot be counted: %#", (text, problem) => {
    expect(problemsOf(text, TABLES)).toEqual([`t.yaml:${problem}`]);
  });
});

describe("buying, deliveries and keeping", () => {
  it("may be switched off, with a price or without", () => {
    expect(itemOf(marrow("price: 1 / head, buy: no"))?.buying).toBeNull();
    expect(itemOf(marrow("buy: no"))?.buying).toBeNull();
    expect(itemOf(marrow("buy: no"))?.orderUnit.name).toBe("head");
  });

  it("may be bounded", () => {
    expect(itemOf(marrow("price: 1 / head, buy: 3 to 12"))?.buying).toMatchObject({ least: 3, most: 12 });
    expect(itemOf(marrow("price: 1 / head, buy: yes"))?.buying).toMatchObject({ least: 0, most: null });
  });

  it("comes before the first service that is not earlier than the delivery", () => {
    const deliveries = (dates: string) =>
      itemOf(marrow(`price: 1 / head, deliveries: ${dates}`))?.buying?.deliveries;
    expect(deliveries("2026-10-03")).toEqual([1]);
    expect(deliveries("[2026-10-03, 2026-10-02, 2026-10-01]")).toEqual([0, 1]);
  });

  it("counts the days in store from the delivery, day 1", () => {
    const keeps = (date: string) => itemOf(marrow(`price: 1 / head, deliveries: ${date}`))?.keepsDays;
    expect(keeps("2026-10-02")).toBe(5);
    expect(keeps("2026-09-30")).toBe(3);
    expect(problemsOf(marrow("price: 1 / head, deliveries: 2026-09-25"), TABLES)).toEqual([
      "t.yaml:5:29: `marrow` keeps 5 days and would be past it at the service after its delivery. Write a later delivery, or a longer `keeps:`",
    ]);
  });
});

describe("stock of an item", () => {
  const held = (stock: string) => marrow(`buy: no, on_hand: ${stock}`);

  it("is held by the unit or by weight", () => {
    const onHand = (stock: string) => itemOf(held(stock))?.onHand;
    const two = { units: d("2"), weight: grams("1200"), value: money("1"), lastDay: 1 };
    expect(onHand("{amount: 2 heads, value: 1, use_by: 2026-10-03}")).toEqual([two]);
    expect(onHand("[{amount: 1.2 kg, value: 1.00, use_by: 2026-10-03}]")).toEqual([two]);
    expect(onHand("{amount: 2 each, value: 1, use_by: 2026-10-03}")).toEqual([two]);
  });

  it("in pounds may miss by the rounding of each unit", () => {
    const text = marrow("buy: no, unit_weight: 1 lb, on_hand: {amount: 2 lb, use_by: 2026-10-03}");
    expect(itemOf(text)?.onHand[0]).toMatchObject({ units: d("2"), weight: grams("907.184") });
  });

  it.each([
    [
      "{amount: 1 kg, use_by: 2026-10-03}",
      "t.yaml:5:39: 1 kg is no whole number of units of 600 g. Write whole units, such as `2 head`",
    ],
    [
      "{amount: 1.5 head, use_by: 2026-10-03}",
      "t.yaml:5:39: 1.5 head is no whole number of units of 600 g. Write whole units, such as `1 head`",
    ],
    [
      "{amount: 2 bunch, use_by: 2026-10-03}",
      "t.yaml:5:39: `bunch` is neither a weight nor how this item is counted. Write `2 head`, or a weight such as `1.2 kg`",
    ],
    [
      "{amount: 2 head}",
      "t.yaml:5:21: the stock has no use-by date. Add `use_by:`, such as `use_by: 2026-10-03`",
    ],
    [
      "{amount: 2 head, use_by: 2026-10-01}",
      "t.yaml:5:55: the use-by date 2026-10-01 is past before Lunch on 2026-10-02. Take the stock out of the plan, or correct the date",
    ],
    [
      "{amount: 0 head, use_by: 2026-10-03}",
      "t.yaml:5:39: `0 head` is nothing. Write more than zero, or leave it out",
    ],
  ])("is refused in plain words: %s", (stock, problem) => {
    expect(problemsOf(held(stock), TABLES)).toEqual([problem]);
  });

  it("of what is cut by weight is held by weight", () => {
    expect(
      problemsOf(spinach("price: 5 / kg, on_hand: {amount: 2 bunch, use_by: 2026-10-03}"), TABLES),
    ).toEqual(["t.yaml:5:46: what is cut by weight is held by weight. Write a weight, such as `1.2 kg`"]);
    expect(
      itemOf(spinach("price: 5 / kg, on_hand: {amount: 300 g, use_by: 2026-10-03}"))?.onHand[0]?.units,
    ).toEqual(d("0.3"));
  });
});
