import { describe, expect, it } from "vitest";
import { grams } from "../../src/quantity/index.js";
import type { YieldTables } from "../../src/yields/index.js";
import { NO_TABLES, problemsOf, resolved, tableItem } from "../support/resolving.js";

/** Invented yields, with facts of the parts that differ from form to form. */
const TABLES: YieldTables = {
  ...NO_TABLES,
  items: [
    tableItem(
      "leek",
      "untrimmed",
      "cut",
      [
        ["white", "60", "food", 4, null],
        ["green", "40", "food", 2, null],
      ],
      { allergens: ["celery"] },
    ),
    tableItem(
      "leek",
      "trimmed",
      "cut",
      [
        ["white", "90", "food", 3, null],
        ["green", "10", "inedible", 5, null],
      ],
      { allergens: ["mustard"] },
    ),
    tableItem("egg", "large", "separated", [["yolk", "100", "food", 2, 1]], {
      unitName: "egg",
      unitWeight: grams("57"),
    }),
    tableItem("egg", "small", "separated", [["yolk", "100", "food", 2, 1]], {
      unitName: "egg",
      unitWeight: grams("45"),
    }),
  ],
  cooking: [],
};

const UNTRIMMED = "leek: {form: untrimmed, price: 1 / head}";
const TRIMMED = "trimmed leek: {of: leek, form: trimmed, price: 2 / head}";

function scenario(items: readonly string[], part = "leek white", more = ""): string {
  return `scenario: t
currency: EUR
services: [{name: Lunch, date: 2026-10-02}]
items:
  ${items.join("\n  ")}
${more}dishes: {dish: {portions: 10, lines: [{amount: 50 g, from: ${part}}]}}
`;
}

describe("two forms of one item", () => {
  const { items, parts } = resolved(scenario([UNTRIMMED, TRIMMED]), TABLES);

  it("give parts of one name, each by its own breakdowns", () => {
    expect(items.map(({ name, of, form }) => [name, of, form])).toEqual([
      ["leek", "leek", "untrimmed"],
      ["trimmed leek", "leek", "trimmed"],
    ]);
    expect(
      items.map(({ breakdowns }) =>
        breakdowns.flatMap(({ yields }) => yields.map(({ part, fraction }) => `${part} ${fraction}`)),
      ),
    ).toEqual([
      ["leek white 0.6", "leek green 0.4"],
      ["leek white 0.9", "leek green 0.1"],
    ]);
    expect(parts.map(({ name, item }) => [name, item])).toEqual([
      ["leek white", "leek"],
      ["leek green", "leek"],
    ]);
  });

  it("leave a part the fewest days, the strictest class and every allergen of either", () => {
    expect(parts.map(({ keepsDays, class: kind, allergens }) => ({ keepsDays, kind, allergens }))).toEqual([
      { keepsDays: 3, kind: "food", allergens: ["celery", "mustard"] },
      { keepsDays: 2, kind: "inedible", allergens: ["celery", "mustard"] },
    ]);
    const turned = resolved(scenario([TRIMMED, UNTRIMMED]), TABLES).parts;
    expect(turned.map(({ keepsDays, class: kind }) => [keepsDays, kind])).toEqual([
      [3, "food"],
      [2, "inedible"],
    ]);
  });

  it("need not both be there: the other form alone gives parts of the item's name", () => {
    expect(resolved(scenario([TRIMMED]), TABLES).parts[0]).toMatchObject({
      name: "leek white",
      item: "leek",
    });
  });

  it("may bring breakdowns of their own, whose parts are named after the item", () => {
    const shreds =
      "leek shreds: {of: leek, form: bag, price: 8 / kg, breakdowns: {open: {parts: {white: 100 %}}}}";
    const { items: own, parts: made } = resolved(scenario([UNTRIMMED, shreds]), TABLES);
    expect(own[1]).toMatchObject({
      of: "leek",
      measure: "loose",
      breakdowns: [{ yields: [{ part: "leek white" }] }],
    });
    expect(made[0]).toMatchObject({ name: "leek white", keepsDays: 4 });
    const marrows = [
      "marrow: {price: 1 / head, unit_weight: 500 g, breakdowns: {cut: {parts: {block: 100 %}}}}",
      "marrow block, bought: {of: marrow, price: 8 / kg, breakdowns: {open: {parts: {block: 100 %}}}}",
    ];
    expect(resolved(scenario(marrows, "marrow block"), TABLES).parts.map(({ name }) => name)).toEqual([
      "marrow block",
    ]);
  });

  it.each<[string, readonly string[], string, string]>([
    [
      "an item that nothing holds",
      ["trimmed leek: {of: leak, form: trimmed, price: 2 / head}"],
      "leek white",
      "t.yaml:5:22: `trimmed leek` is another form of `leak`, which neither the tables nor this scenario hold. Did you mean `leek`?",
    ],
    [
      "a form of a form",
      [
        UNTRIMMED,
        TRIMMED,
        "leek ends: {of: trimmed leek, price: 1 / kg, breakdowns: {open: {parts: {green: 100 %}}}}",
      ],
      "leek white",
      "t.yaml:7:19: `trimmed leek` is itself a form of `leek`. Write `of: leek`",
    ],
    [
      "a form that nothing tells the yields of",
      [
        "gourd: {price: 1 / kg, breakdowns: {cut: {parts: {block: 100 %}}}}",
        "gourd block, bought: {of: gourd, price: 2 / kg}",
      ],
      "gourd block",
      "t.yaml:6:29: no yield table holds `gourd`, so nothing tells how `gourd block, bought` yields. Give it `breakdowns:` of its own",
    ],
    [
      "a part named after the form",
      [UNTRIMMED, TRIMMED],
      "trimmed leek white",
      "t.yaml:7:60: no breakdown, step or table gives a part `trimmed leek white`. Did you mean `leek white`?",
    ],
    [
      "the form itself for a part",
      [UNTRIMMED, TRIMMED],
      "trimmed leek",
      "t.yaml:7:60: `trimmed leek` is an item, and a part of it belongs here. Write one of its parts: `leek white`, `leek green`",
    ],
    [
      "pieces of two sizes under one name",
      ["egg: {form: large, price: 0.30 / egg}", "small egg: {of: egg, form: small, price: 0.20 / egg}"],
      "egg yolk",
      "t.yaml:6:19: one piece of `egg yolk` weighs 57 g from `egg` and 45 g from `small egg`. Leave `of:` out and give `small egg` `breakdowns:` of its own, so that the two sizes have different names",
    ],
  ])("do not stand for %s", (_, written, part, problem) => {
    expect(problemsOf(scenario(written, part), TABLES)).toEqual([problem]);
  });
});
