import { describe, expect, it } from "vitest";
import { Decimal, grams } from "../../src/quantity/index.js";
import type { YieldTables } from "../../src/yields/index.js";
import { NO_TABLES, problemsOf, resolved } from "../support/resolving.js";

const d = (text: string) => new Decimal(text);

const TABLES: YieldTables = {
  ...NO_TABLES,
  cooking: [
    // USDA Table of Cooking Yields for Meat and Poultry (2014), NDB 05095: chicken thigh, stewed, 74 %.
    {
      food: "bird thigh",
      method: "stewed",
      fraction: d("0.74"),
      spread: null,
      tests: null,
      source: "USDA 2014",
      basis: "read",
    },
    {
      food: "bird",
      method: "roasted",
      fraction: d("0.7"),
      spread: null,
      tests: null,
      source: "invented",
      basis: "common practice",
    },
  ],
};

function scenario({
  services = "[{name: Lunch, date: 2026-10-02, covers: 20, courses: {main: 100 %}}]",
  dishes = "{pie: {course: main, lines: [{amount: 50 g, from: bird thigh}]}}",
  destinations = "{}",
  head = "",
} = {}): string {
  return `scenario: t
currency: EUR
${head}
services: ${services}
items:
  bird:
    price: 6.00 / bird
    unit_weight: 1000 g
    keeps: 2 days
    breakdowns: {cut: {parts: {thigh: 300 g, breast: 400 g, wing: 300 g}, pieces: {wing: 2, breast: 2, thigh: 2}}}
dishes: ${dishes}
destinations: ${destinations}
`;
}
const problems = (parts: Parameters<typeof scenario>[0]) => problemsOf(scenario(parts), TABLES);
const pie = (lines: string) => ({ dishes: `{pie: {course: main, lines: [${lines}]}}` });
const line = (text: string) => resolved(scenario(pie(text)), TABLES).dishes[0]?.lines[0];

describe("services", () => {
  it("are in the order they are served", () => {
    const of = (first: string, second: string) =>
      problems({
        services: `[{name: A, ${first}}, {name: B, ${second}}]`,
        dishes: "{pie: {portions: 5, lines: [{amount: 50 g, from: bird thigh}]}}",
      });
    expect(of("date: 2026-10-02", "date: 2026-10-02")).toEqual([]);
    expect(of("date: 2026-10-02, sitting: lunch", "date: 2026-10-02, sitting: dinner")).toEqual([]);
    expect(of("date: 2026-10-02, sitting: dinner", "date: 2026-10-03, sitting: breakfast")).toEqual([]);
    expect(of("date: 2026-10-02, sitting: dinner", "date: 2026-10-02, sitting: breakfast")).toEqual([
      "t.yaml:4:95: `B` on 2026-10-02 stands after `A` on 2026-10-02 and is served before it. Write the services in the order they are served",
    ]);
    expect(of("date: 2026-10-02", "date: 2026-10-01")).toEqual([
      "t.yaml:4:57: `B` on 2026-10-01 stands after `A` on 2026-10-02 and is served before it. Write the services in the order they are served",
    ]);
  });

  it("with courses say how many people are expected", () => {
    expect(problems({ services: "[{name: A, date: 2026-10-02, courses: {main: 100 %}}]" })).toEqual([
      "t.yaml:4:40: `A` has courses, and how many people are expected is not stated. Add `covers:`, such as `covers: 60`",
    ]);
    expect(
      problems({ services: "[{name: A, date: 2026-10-02, covers: 0, courses: {main: 100 %}}]" }),
    ).toEqual([
      "t.yaml:4:48: nobody is expected at `A`. Write how many people are expected, or leave the service out",
    ]);
  });

  it("are needed, as are dishes and items", () => {
    expect(problems({ services: "[]", dishes: "{}" })).toEqual([
      "t.yaml:4:11: the scenario has no service. Add one, such as `- {name: Friday dinner, date: 2026-10-02, covers: 60}`",
      "t.yaml:11:9: the scenario has no dish. Add one under `dishes:`",
    ]);
  });
});

describe("where a dish is offered", () => {
  const services = `
  - {name: A, date: 2026-10-02, covers: 10, courses: {main: 100 %}}
  - {name: B, date: 2026-10-02, covers: 10, courses: {side: 100 %, main: 50 %}}`;
  const SIDE = "chips: {course: side, lines: [{amount: 50 g, from: bird wing}]}";
  const dish = (keys: string) =>
    `{pie: {${keys}, lines: [{amount: 50 g, from: bird thigh}]}, cover: {course: main, lines: [{amount: 50 g, from: bird thigh}]}, ${SIDE}}`;
  const offered = (keys: string) => resolved(scenario({ services, dishes: dish(keys) })).dishes[0]?.services;
  const wrong = (keys: string) => problems({ services, dishes: dish(keys) });

  it("is every service with its course, those it names, or the first with portions", () => {
    expect(offered("course: main")).toEqual([0, 1]);
    expect(offered("course: main, services: B")).toEqual([1]);
    expect(offered("course: side, portions: 5")).toEqual([1]);
    expect(offered("portions: 5")).toEqual([0]);
    expect(offered("portions: 5, services: [B, A, B]")).toEqual([0, 1]);
    expect(offered("course: pudding, portions: 5")).toEqual([0]);
  });

  it("is somewhere that has the course, and is known", () => {
    expect(wrong("course: main, services: [A, C]")).toEqual([
      "t.yaml:13:44: there is no service `C`. Write one of: `A`, `B`",
    ]);
    expect(wrong("course: side, services: [A]")).toEqual([
      "t.yaml:13:41: `pie` is a side, and `A` has no such course. Take `A` out, add the course to it, or state `portions:`",
    ]);
    expect(wrong("course: pudding")).toEqual([
      "t.yaml:13:24: no service has a course `pudding`. Write one of: `main`, `side`",
    ]);
    expect(wrong("course: main, services: []")).toEqual([
      "t.yaml:13:40: `pie` is offered at no service. Name a service, or leave the key out",
    ]);
    expect(wrong("ceiling: 1.00")).toEqual([
      "t.yaml:13:10: how many portions of `pie` are wanted is not stated. Add `course:`, such as `course: main`, or `portions:`, such as `portions: 24`",
    ]);
    expect(wrong("portions: 0")).toEqual([
      "t.yaml:13:26: `pie` is wanted in no portion. Write how many, such as `24` or `20 to 40`, or leave the dish out",
    ]);
  });

  it("leaves no course, and no diet, without a dish", () => {
    const lunch = (more: string) =>
      `[{name: A, date: 2026-10-02, covers: 10, courses: {main: 100 %}, ${more}}]`;
    expect(
      problems({ services: lunch("overage: 5 %").replace("main: 100 %", "main: 100 %, side: 50 %") }),
    ).toEqual([
      "t.yaml:4:75: no dish is offered for side at `A`. Add a dish with `course: side`, or leave the course out",
    ]);
    expect(problems({ services: lunch("diets: {vegan: 2}") })).toEqual([
      "t.yaml:4:84: no dish offered at `A` is fit for vegan. Add `diets: [vegan]` to the dishes that are",
    ]);
    const fit = "{pie: {course: main, diets: [vegetarian], lines: [{amount: 50 g, from: bird thigh}]}}";
    expect(problems({ services: lunch("diets: {vegetarain: 2}"), dishes: fit })).toEqual([
      "t.yaml:4:84: no dish offered at `A` is fit for vegetarain. Did you mean `vegetarian`?",
    ]);
    expect(problems({ services: lunch("diets: {vegan: 0}") })).toEqual([]);
  });
});

describe("batches", () => {
  const batch = (text: string) =>
    problems({ dishes: `{pie: {course: main, batch: ${text}, lines: [{amount: 50 g, from: bird thigh}]}}` });

  it("make portions, an even number where halves are cooked", () => {
    expect(batch("{portions: 12, halves: yes}")).toEqual([]);
    expect(batch("{portions: 0}")).toEqual([
      "t.yaml:11:48: a batch of no portions. Write how many portions a batch makes",
    ]);
    expect(batch("{portions: 15, halves: yes}")).toEqual([
      "t.yaml:11:48: half a batch of 15 is no whole number of portions. Write an even number, such as `16`, or `halves: no`",
    ]);
  });
});

describe("recipe lines", () => {
  it("stated cooked take their yield from the line, or from the tables by part or item", () => {
    expect(line("{amount: 120 g cooked, from: bird breast, cooking: {yield: 75 %}}")).toMatchObject({
      stated: "cooked",
      cookingYield: d("0.75"),
      least: grams("120"),
    });
    expect(line("{amount: 120 g cooked, from: bird thigh, cooking: {method: stewed}}")?.cookingYield).toEqual(
      d("0.74"),
    );
    expect(
      line("{amount: 120 g cooked, from: [bird breast, bird wing], cooking: {method: roasted}}")
        ?.cookingYield,
    ).toEqual(d("0.7"));
    expect(problems(pie("{amount: 120 g cooked, from: bird thigh}"))).toEqual([
      "t.yaml:11:47: the amount is cooked, and what `bird thigh` loses in cooking is not known. Add `cooking: {yield: 75 %}`, or write the raw amount",
    ]);
    expect(problems(pie("{amount: 120 g cooked, from: bird thigh, cooking: {method: fried}}"))).toEqual([
      "t.yaml:11:47: the amount is cooked, and what `bird thigh` loses when fried is not known. Add `cooking: {yield: 75 %}`, or write the raw amount",
    ]);
    expect(problems(pie("{amount: 120 g, from: bird thigh, cooking: {yield: 75 %}}"))).toEqual([
      "t.yaml:11:89: a cooking yield is stated, and the amount is raw. Write the amount as cooked, such as `120 g cooked`, or leave the yield out",
    ]);
    expect(problems(pie("{amount: 120 g cooked, from: bird thigh, cooking: {yield: 0 %}}"))).toEqual([
      "t.yaml:11:96: nothing would be left after cooking. Write cooked weight as a percent of raw, such as `75 %`",
    ]);
  });

  it("in pieces weigh what the pieces do", () => {
    expect(line("{amount: 2 each, from: bird wing}")).toMatchObject({
      least: grams("300"),
      most: grams("300"),
    });
    expect(line("{amount: 1 to 2 each, from: [bird wing, bird thigh]}")).toMatchObject({
      least: grams("150"),
      most: grams("300"),
    });
    expect(problems(pie("{amount: 2 each, from: [bird wing, bird breast]}"))).toEqual([
      "t.yaml:11:47: the pieces of these parts do not weigh the same. Write a weight, or take the line from one part",
    ]);
  });

  it("have rates above zero, and shares that can be met", () => {
    expect(line("{amount: 50 g, from: {bird wing: {rate: 0.8}, bird thigh: {share: 25 %}}}")?.from).toEqual([
      { part: "bird wing", rate: d("0.8"), leastShare: d("0"), mostShare: d("1") },
      { part: "bird thigh", rate: d("1"), leastShare: d("0.25"), mostShare: d("0.25") },
    ]);
    expect(problems(pie("{amount: 50 g, from: {bird wing: {rate: 0}}}"))).toEqual([
      "t.yaml:11:78: at a rate of zero, no amount of `bird wing` would do. Write how many grams of the line one gram of it stands for, such as `1.0`",
    ]);
    expect(
      problems(pie("{amount: 50 g, from: {bird wing: {share: 60 %}, bird thigh: {share: 50 to 70 %}}}")),
    ).toEqual([
      "t.yaml:11:53: the least shares add up to 110 %. Write shares whose least add up to 100 % or less",
    ]);
    expect(
      problems(pie("{amount: 50 g, from: {bird wing: {share: 60 %}, bird thigh: {share: 30 %}}}")),
    ).toEqual([
      "t.yaml:11:53: the greatest shares add up to 90 %, so the line can never be full. Write shares whose greatest add up to 100 % or more",
    ]);
  });

  it("are taken from something", () => {
    expect(problems(pie("{amount: 50 g, from: []}"))).toEqual([
      "t.yaml:11:59: the line is taken from nothing. Write the part it is taken from, such as `from: marrow dice`",
    ]);
    expect(problems(pie("{from: bird wing}"))).toEqual([
      "t.yaml:11:38: `amount` is missing. Write the weight of one portion, such as `amount: 170 g`",
    ]);
    expect(problems(pie(""))).toEqual([
      "t.yaml:11:10: `pie` takes no part of any item. Add `lines:`, such as `lines: [{amount: 170 g, from: marrow dice}]`",
    ]);
  });
});

describe("staples", () => {
  const staples = (text: string, head = "") => ({
    head,
    dishes: `{pie: {course: main, lines: [{amount: 50 g, from: bird thigh}], staples: {${text}}}}`,
  });
  const cost = (text: string, head = "") =>
    resolved(scenario(staples(text, head))).dishes[0]?.staples[0]?.costPerPortion;

  it("cost what the amount comes to, exactly", () => {
    expect(cost("oil: {amount: 15 g, price: 4.00 / kg}")).toEqual(d("0.06"));
    expect(cost("oil: {amount: 15 g, price: 6.20 / bag of 5 kg}")).toEqual(d("0.0186"));
    expect(cost("milk: {amount: 1 cup, price: 1.10 / L}", "units: {cup: metric}")).toEqual(d("0.275"));
    expect(cost("milk: {amount: 1 cup, price: 4.00 / gallon}", "units: {cup: us}")).toEqual(d("0.25"));
    expect(cost("egg: {amount: 2 each, price: 0.20 / each}")).toEqual(d("0.4"));
    expect(cost("salt: 0.015")).toEqual(d("0.015"));
  });

  it("cost 0.1195 for 6 fl oz at 22.94 a case of 12 cans of 0.75 gal (holt.blue MTH 81 ch. 9)", () => {
    const sauce = "sauce: {amount: 6 us fl oz, price: 22.94 / 9 us gallon}";
    expect(cost(sauce)?.toDecimalPlaces(4).toFixed()).toBe("0.1195");
    expect(cost(sauce)?.times(200).toFixed(2)).toBe("23.90");
  });

  it("are stated one way and whole", () => {
    expect(problems(staples("oil: {amount: 15 g}"))).toEqual([
      "t.yaml:11:83: `oil` has no price. Add `price:`, such as `price: 4.00 / kg`, or write a flat cost a portion",
    ]);
    expect(problems(staples("oil: {price: 4.00 / kg}"))).toEqual([
      "t.yaml:11:83: `oil` has no amount. Add `amount:`, such as `amount: 15 g`, or write a flat cost a portion",
    ]);
    expect(problems(staples("oil: {cost: 0.10, amount: 15 g}"))).toEqual([
      "t.yaml:11:89: `oil` has a flat cost and an amount or price as well. Keep `cost`, or `amount` and `price`",
    ]);
    expect(problems(staples("oil: {amount: 15 mL, price: 4.00 / kg}"))).toEqual([
      "t.yaml:11:111: the price of `oil` is for another measure than its amount. Write the price for a volume, such as `4.00 / L`, or the amount as the price is",
    ]);
  });
});

describe("destinations", () => {
  const names = (destinations: string) =>
    resolved(scenario({ destinations })).destinations.map(
      ({ name, end, takes: { food, inedible, portions }, limit }) => [
        name,
        end,
        [food && "food", inedible && "inedible", portions && "portions"].filter(Boolean).join(" "),
        limit,
      ],
    );

  it("take food and portions given away, and everything wasted, unless they say otherwise", () => {
    expect(names("{staff: {kind: given away}, bin: {kind: waste}}")).toEqual([
      ["staff", "given away", "food portions", null],
      ["bin", "waste", "food inedible portions", null],
    ]);
    expect(
      names("{bin: {kind: waste, takes: food}, pit: {kind: waste, takes: [inedible, portions]}}"),
    ).toHaveLength(2);
  });

  it("leave nothing without somewhere to go: a refuse takes the rest", () => {
    expect(names("{bin: {kind: waste, limit: 2 kg}, pit: {kind: waste, takes: inedible}}")).toEqual([
      ["bin", "waste", "food inedible portions", grams("2000")],
      ["pit", "waste", "inedible", null],
      ["refuse", "waste", "food portions", null],
    ]);
    expect(problems({ destinations: "{refuse: {kind: waste, limit: 2 kg}}" })).toEqual([
      "t.yaml:12:16: what no destination takes without limit has nowhere to go, and `refuse` does not take all of it. Leave out its `limit` and `takes`, or give it another name so that a refuse is added",
    ]);
  });

  it("feed animals only where the kitchen states that its local rules allow it", () => {
    expect(problems({ destinations: "{hens: {kind: animal feed}}" })).toEqual([
      "t.yaml:12:16: `hens` feeds animals, which is blocked until the kitchen states that its local rules allow it. Add `local_rules_allow:` with the rule or notice that does, or leave it out",
    ]);
    expect(names('{hens: {kind: animal feed, local_rules_allow: "Notice 12"}}')[0]).toEqual([
      "hens",
      "waste",
      "food inedible",
      null,
    ]);
  });
});

describe("the balanced aim", () => {
  it("needs a price for waste", () => {
    expect(problems({ head: "aim: balanced" })).toEqual([
      "t.yaml:3:6: the balanced aim needs to know what waste counts for. Add `waste_price:`, such as `waste_price: 4.00 / kg`",
    ]);
  });
});
