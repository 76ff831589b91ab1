import { describe, expect, it } from "vitest";
import { COSTING_METHODS } from "../../src/kitchen/index.js";
import { Decimal, grams } from "../../src/quantity/index.js";
import { leastCosts } from "../../src/scenario/checks.js";
import type { TableStep, YieldTables } from "../../src/yields/index.js";
import { NO_TABLES, problemsOf, resolved, tableItem } from "../support/resolving.js";

const d = (text: string) => new Decimal(text);

const PEEL: TableStep = {
  name: "peel stems",
  from: ["broccoli stem"],
  yields: [
    { part: "broccoli peeled stem", fraction: d("0.78"), class: "food", state: "raw", keepsDays: 3 },
    { part: "broccoli stem peel", fraction: d("0.2"), class: "inedible", state: "raw", keepsDays: null },
  ],
  loss: d("0.02"),
  water: d("0"),
  minutesPerKilogram: d("10"),
  how: "Pare off the skin.",
  source: "invented",
  basis: "common practice",
};
const FREEZE: TableStep = {
  ...PEEL,
  name: "freeze peeled stems",
  from: ["broccoli peeled stem", "kohlrabi cubes"],
  yields: [
    { part: "broccoli frozen stem", fraction: d("0.97"), class: "food", state: "frozen", keepsDays: 300 },
  ],
  loss: d("0.03"),
};
const TABLES: YieldTables = {
  ...NO_TABLES,
  items: [
    tableItem("broccoli", "untrimmed", "florets", [
      ["floret", "61", "food", 4, null],
      ["stem", "39", "food", 4, null],
    ]),
  ],
  steps: [PEEL, FREEZE, { ...PEEL, name: "grate", from: ["kohlrabi cubes"], yields: [] }],
};

function scenario({
  steps = "{}",
  parts = "{}",
  item = "",
  from = "broccoli floret",
  costing = "edible weight",
} = {}) {
  return `scenario: t
currency: EUR
costing: ${costing}
services: [{name: Lunch, date: 2026-10-02}]
items: {broccoli: {price: 1.20 / head${item}}}
parts: ${parts}
steps: ${steps}
dishes: {dish: {portions: 10, lines: [{amount: 50 g, from: ${from}}]}}
`;
}

describe("the steps of the tables", () => {
  it("come in where what they take can be had, one after the other", () => {
    const { steps, parts } = resolved(scenario({ from: "broccoli frozen stem" }), TABLES);
    expect(
      steps.map(({ name, from, minutesPerKilogram, capacity }) => [name, from, minutesPerKilogram, capacity]),
    ).toEqual([
      ["peel stems", ["broccoli stem"], d("10"), null],
      ["freeze peeled stems", ["broccoli peeled stem"], d("10"), null],
    ]);
    expect(parts.map(({ name, state, keepsDays, item }) => [name, state, keepsDays, item])).toEqual([
      ["broccoli floret", "raw", 4, "broccoli"],
      ["broccoli stem", "raw", 4, "broccoli"],
      ["broccoli peeled stem", "raw", 3, "broccoli"],
      ["broccoli stem peel", "raw", 4, "broccoli"],
      ["broccoli frozen stem", "frozen", 300, "broccoli"],
    ]);
  });

  it("stay out where the breakdown that feeds them may not be used", () => {
    const item = ", cut: whole, breakdowns: {whole: {parts: {floret: 100 %}}}";
    expect(resolved(scenario({ item }), TABLES).steps).toEqual([]);
    expect(problemsOf(scenario({ item, from: "broccoli peeled stem" }), TABLES)).toEqual([
      "t.yaml:8:60: no breakdown or step in use gives `broccoli peeled stem`. Add the breakdown to `cut:`, or take the line from another part",
    ]);
  });

  it("come in where what they take is on hand", () => {
    const item = ", cut: whole, breakdowns: {whole: {parts: {floret: 100 %}}}";
    const parts = "{broccoli stem: {on_hand: {weight: 300 g, use_by: 2026-10-02}}}";
    const { steps, partsOnHand } = resolved(scenario({ item, parts, from: "broccoli peeled stem" }), TABLES);
    expect(steps.map(({ name }) => name)).toEqual(["peel stems", "freeze peeled stems"]);
    expect(partsOnHand[0]).toMatchObject({ part: "broccoli stem", weight: grams("300"), lastDay: 0 });
  });

  it("are replaced by the scenario's own of the same name", () => {
    const steps = "{peel stems: {from: broccoli stem, gives: {broccoli peeled stem: 70 %}, loss: 30 %}}";
    const [peel] = resolved(scenario({ steps }), TABLES).steps;
    expect(peel).toMatchObject({ loss: d("0.3"), source: "this scenario", yields: [{ fraction: d("0.7") }] });
  });
});

describe("a step of the scenario's own", () => {
  it("gives parts that keep as long as what they are made of, with its allergens", () => {
    const steps = "{shred: {from: [broccoli floret, broccoli stem], gives: {slaw base: 100 %}}}";
    const item = ", allergens: [mustard]";
    const { parts } = resolved(scenario({ steps, item, parts: "{broccoli stem: {keeps: 2 days}}" }), TABLES);
    const slaw = parts.find(({ name }) => name === "slaw base");
    expect(slaw).toMatchObject({ name: "slaw base", keepsDays: 2, item: "broccoli", allergens: ["mustard"] });
  });

  it("may be described under parts", () => {
    const steps = "{freeze: {from: broccoli floret, gives: {broccoli frozen floret: 97 %}, loss: 3 %}}";
    const parts = "{broccoli frozen floret: {state: frozen, keeps: 300 days}}";
    expect(resolved(scenario({ steps, parts }), TABLES).parts[2]).toMatchObject({
      state: "frozen",
      keepsDays: 300,
    });
  });

  it("must close: what it gives and the loss are all that is taken, and the water", () => {
    const step = (rest: string) =>
      problemsOf(scenario({ steps: `{a: {from: broccoli stem, ${rest}}}` }), TABLES);
    expect(step("gives: {x: 100 %}")).toEqual([]);
    expect(step("gives: {x: 200 %}, water: 100 %")).toEqual([]);
    expect(step("gives: {x: 80 %, y: 20.5 %}")).toEqual([
      "t.yaml:7:9: what it gives and the loss are 100.5 % of what is taken, and with the water they should be 100 %: 0.5 % are too much. Correct `gives`, `loss` or `water`",
    ]);
    expect(step("gives: {}")).toEqual([
      "t.yaml:7:41: the step gives nothing. Write what it gives, such as `gives: {marrow dice: 100 %}`",
    ]);
  });

  it("may not undo another", () => {
    const steps = `
  chop: {from: broccoli floret, gives: {broccoli crumb: 100 %}}
  grind: {from: broccoli crumb, gives: {broccoli meal: 100 %}}
  mould: {from: broccoli meal, gives: {broccoli floret: 100 %}}`;
    expect(problemsOf(scenario({ steps }), TABLES)).toEqual([
      "t.yaml:10:3: the steps run in a circle: broccoli floret, then broccoli crumb, then broccoli meal, then broccoli floret. Leave one of these steps out: a part may be downgraded, never upgraded",
    ]);
    const itself = "{turn: {from: broccoli stem, gives: {broccoli stem: 100 %}}}";
    expect(problemsOf(scenario({ steps: itself }), TABLES)).toEqual([
      "t.yaml:7:9: the steps run in a circle: broccoli stem, then broccoli stem. Leave one of these steps out: a part may be downgraded, never upgraded",
    ]);
  });

  it("names a part that nothing gives, and nothing else for what it would make of it", () => {
    const steps = "{shred: {from: broccoli stme, gives: {broccoli slaw: 100 %}}}";
    expect(problemsOf(scenario({ steps, from: "broccoli slaw" }), TABLES)).toEqual([
      "t.yaml:7:23: no breakdown, step or table gives a part `broccoli stme`. Did you mean `broccoli stem`?",
    ]);
  });
});

describe("keeping a part past the plan", () => {
  const keep = (part: string, value: string, costing = "edible weight", more = "") =>
    problemsOf(
      scenario({
        costing,
        parts: `{${part}: {keep: {use: soup, limit: 500 g, value: ${value} / kg}${more}}}`,
      }),
      TABLES,
    );

  it("is valued at no more than it costs: 1.20 for 600 g, all of it food, is 2.00 a kilogram", () => {
    expect(keep("broccoli floret", "2.00")).toEqual([]);
    expect(keep("broccoli floret", "2.01")).toEqual([
      "t.yaml:6:66: 2.01 a kilogram is above the 2.00 that it may cost, so hoarding it would pay. Write at most `2.00 / kg`",
    ]);
  });

  it("costs more once a step has taken a fifth of it away: 2.00 / 0.78 is 2.564", () => {
    expect(keep("broccoli peeled stem", "2.56")).toEqual([]);
    expect(keep("broccoli peeled stem", "2.57")).toEqual([
      "t.yaml:6:71: 2.57 a kilogram is above the 2.5641 that it may cost, so hoarding it would pay. Write at most `2.56 / kg`",
    ]);
  });

  it("costs its credit by trim credit", () => {
    const credit = ", credit: 0.50 / kg";
    expect(keep("broccoli stem", "0.50", "trim credit", credit)).toEqual([]);
    expect(keep("broccoli stem", "0.51", "trim credit", credit)).toHaveLength(1);
    expect(keep("broccoli stem", "0.50", "trim credit")).toEqual([
      "t.yaml:3:10: costing by trim credit needs the market value of parts, and none is stated. Add `credit:` to parts, such as `marrow ring: {credit: 3.00 / kg}`",
    ]);
  });

  it("needs a part, or an item, that outlives the plan", () => {
    const text = scenario({ parts: "{broccoli floret: {keeps: 1 day, keep: {use: soup, limit: 1 kg}}}" });
    expect(problemsOf(text, TABLES)).toEqual([
      "t.yaml:6:41: `broccoli floret` keeps only the day itself, so none can be kept past the plan. Write how long it keeps, such as `keeps: 3 days`, or leave `keep` out",
    ]);
    const item = ", keeps: 1 day, keep: {use: soup, limit: 1 kg, value: 9.00 / kg}";
    expect(problemsOf(scenario({ item }), TABLES)).toEqual([
      "t.yaml:5:54: `broccoli` keeps only the day itself, so none can be kept past the plan. Write how long it keeps, such as `keeps: 3 days`, or leave `keep` out",
      "t.yaml:5:92: 9.00 a kilogram is above the 2.00 that it may cost, so hoarding it would pay. Write at most `2.00 / kg`",
    ]);
  });
});

describe("the least a part can cost", () => {
  function costs(text: string): Record<string, string> {
    const { items, steps, parts, costing } = resolved(text);
    const named = new Map(parts.map((part) => [part.name, part]));
    const found = leastCosts(items, steps, named, COSTING_METHODS[costing]);
    return Object.fromEntries([...found].map(([name, cost]) => [name, cost.toDecimalPlaces(4).toFixed()]));
  }
  const one = (
    price: string,
    unit: string,
    cut: string,
    parts: string,
    costing: string,
    from: string,
  ) => `scenario: t
currency: USD
costing: ${costing}
services: [{name: Lunch, date: 2026-10-02}]
items: {it: {price: ${price} / each, unit_weight: ${unit}, breakdowns: {cut: ${cut}}}}
parts: ${parts}
dishes: {dish: {portions: 1, lines: [{amount: 50 g, from: it ${from}}]}}
`;

  it("is 10.00 a kilogram of a 5 kg roast at 8.00 trimmed to 4 kg (BCcampus, Yield Testing)", () => {
    const cut = "{parts: {roast: 4 kg, trim: {weight: 1 kg, class: inedible}}}";
    expect(costs(one("40.00", "5 kg", cut, "{}", "edible weight", "roast"))).toMatchObject({
      "it roast": "10",
    });
  });

  it("is 11.13 a pound of usable lamb once kidneys and flanks are credited (butcher test card)", () => {
    // 12 lb at 6.65 = 79.80; kidneys 1 lb at 6.10, flanks 1.5 lb at 4.60: 66.80 over 6 lb.
    const cut =
      "{parts: {loin: 6 lb, fat: {weight: 3 lb, class: inedible}, kidney: 1 lb, flank: 1.5 lb}, loss: 0.5 lb}";
    const credits = "{it kidney: {credit: 6.10 / lb}, it flank: {credit: 4.60 / lb}}";
    const found = costs(one("79.80", "12 lb", cut, credits, "trim credit", "loin"));
    expect(
      d(found["it loin"] ?? "0")
        .times("0.45359237")
        .toFixed(2),
    ).toBe("11.13");
    expect(found["it fat"]).toBe("0");
  });

  it("is by sales value as in a published solution of a Horngren-type exercise, ch. 16", () => {
    // Joint cost 50; lb and price: breasts 100 at 0.55, wings 20 at 0.20, thighs 40 at 0.35, bones 80 at 0.10,
    // feathers 10 at 0.05. Printed a pound: 0.3375, 0.1225, 0.2150, 0.0613, 0.0300, from shares rounded first.
    const cut = "{parts: {breast: 100 lb, wing: 20 lb, thigh: 40 lb, bone: 80 lb, feather: 10 lb}}";
    const values =
      "{it breast: {credit: 0.55 / lb}, it wing: {credit: 0.20 / lb}, it thigh: {credit: 0.35 / lb}, it bone: {credit: 0.10 / lb}, it feather: {credit: 0.05 / lb}}";
    const found = costs(one("50.00", "250 lb", cut, values, "sales value", "breast"));
    const pounds = Object.values(found).map((cost) => d(cost).times("0.45359237").toFixed(3));
    expect(pounds).toEqual(["0.337", "0.123", "0.215", "0.061", "0.031"]);
  });
});
