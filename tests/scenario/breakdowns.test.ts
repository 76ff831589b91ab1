import { describe, expect, it } from "vitest";
import { Decimal, grams } from "../../src/quantity/index.js";
import { NO_TABLES, problemsOf, resolved, tableItem } from "../support/resolving.js";

const d = (text: string) => new Decimal(text);

/** A scenario of one item of 1,400 g, cut as the lines say, and a dish of its first part. */
function scenario(breakdowns: string, { unit = "1400 g", part = "ring", parts = "{}" } = {}): string {
  return `scenario: t
currency: EUR
services: [{name: Lunch, date: 2026-10-02}]
items:
  squash:
    price: 2.10 each
    unit_weight: ${unit}
    breakdowns:
${breakdowns}
parts: ${parts}
dishes: {dish: {portions: 10, lines: [{amount: 50 g, from: squash ${part}}]}}
`;
}

describe("a breakdown", () => {
  it("closes by weight to the milligram", () => {
    const { breakdowns } =
      resolved(scenario("      a: {parts: {ring: 933.333 g, dice: 466.667 g}}")).items[0] ?? {};
    expect(breakdowns?.[0]?.yields[0]?.fraction).toEqual(d("933.333").div(1400));
    expect(problemsOf(scenario("      a: {parts: {ring: 933.333 g, dice: 466.666 g}}"))).toEqual([
      "t.yaml:9:7: parts and loss are 1399.999 g and the unit is 1400 g: 0.001 g are missing. Add them to a part or to `loss`",
    ]);
    expect(problemsOf(scenario("      a: {parts: {ring: 1400 g}, loss: 20 g}"))).toEqual([
      "t.yaml:9:7: parts and loss are 1420 g and the unit is 1400 g: 20 g are too much. Take them from a part or from `loss`",
    ]);
  });

  it("closes in pounds and ounces though each is rounded to the milligram", () => {
    // Lamb loin, butcher test card (exercise 6.3 of a standard cost-control text, as completed by a student):
    // 12 lb = fat 3 lb, kidneys 1 lb, flanks 1 lb 8 oz, cutting loss 8 oz, usable 6 lb.
    const card = "      card: {parts: {loin: 6 lb, fat: 3 lb, kidney: 1 lb, flank: 24 oz}, loss: 8 oz}";
    const [cut] = resolved(scenario(card, { unit: "12 lb", part: "loin" })).items[0]?.breakdowns ?? [];
    const percents = [...(cut?.yields ?? []).map(({ fraction }) => fraction), cut?.loss ?? d("0")];
    // The card's percents: 50, 25, 8.33, 12.5, 4.17.
    expect(percents.map((fraction) => fraction.times(100).toDecimalPlaces(2).toFixed())).toEqual([
      "50",
      "25",
      "8.33",
      "12.5",
      "4.17",
    ]);
    expect(
      percents
        .reduce((sum, fraction) => sum.plus(fraction))
        .toDecimalPlaces(50)
        .equals(1),
    ).toBe(true);
  });

  it("closes for the retail cuts of a carcass as published", () => {
    // Oklahoma Department of Agriculture, beef: cuts in lb of a 1,000 lb steer; together 430.0 exactly.
    const cuts = {
      round: "103.2",
      sirloin: "38.7",
      "short loin": "34.4",
      flank: "17.2",
      rib: "38.7",
      "short plate": "30.1",
      chuck: "107.5",
      brisket: "25.8",
      shank: "17.2",
      suet: "17.2",
    };
    const parts = Object.entries(cuts).map(([name, pounds]) => `${name}: ${pounds} lb`);
    const text = scenario(`      cuts: {parts: {${parts.join(", ")}}}`, { unit: "430 lb", part: "round" });
    const fractions = resolved(text).items[0]?.breakdowns[0]?.yields.map(({ fraction }) =>
      fraction.times(100),
    );
    expect(fractions?.map((percent) => percent.toDecimalPlaces(9).toNumber())).toEqual([
      24, 9, 8, 4, 9, 7, 25, 6, 4, 4,
    ]);
  });

  it("closes for the parts of a chicken as published", () => {
    // Canadian Nutrient File, whole chicken, 500 g as purchased: breast 96, wing 32, back 65, leg 111, giblets 25,
    // neck 17; what is left is bone.
    const parts = "breast: 96 g, wing: 32 g, back: 65 g, leg: 111 g, giblets: 25 g, neck: 17 g, bone: 154 g";
    const text = scenario(`      cut: {parts: {${parts}}}`, { unit: "500 g", part: "breast" });
    const of = (name: string) =>
      resolved(text).items[0]?.breakdowns[0]?.yields.find(({ part }) => part === `squash ${name}`)
        ?.fraction ?? d("0");
    const meatAndSkin = of("breast").plus(of("wing")).plus(of("back")).plus(of("leg"));
    expect(meatAndSkin.toFixed(3)).toBe("0.608");
  });

  it("closes in percent exactly", () => {
    expect(problemsOf(scenario("      a: {parts: {ring: 33.3 %, dice: 66.6 %}}"))).toEqual([
      "t.yaml:9:7: parts and loss are 99.9 %: 0.1 % are missing. Add them to a part or to `loss`",
    ]);
    expect(
      resolved(scenario("      a: {parts: {ring: 33.3 %, dice: 66.6 %}, loss: 0.1 %}")).items,
    ).toHaveLength(1);
  });

  it("is stated one way, and gives something", () => {
    expect(problemsOf(scenario("      a: {parts: {ring: 700 g, dice: 50 %}}"))).toEqual([
      "t.yaml:9:7: some parts are given by weight and some in percent. Write all of them, and the loss, one way",
    ]);
    expect(problemsOf(scenario("      a: {parts: {ring: 1400 g}, loss: 0 %}"))).toEqual([
      "t.yaml:9:7: some parts are given by weight and some in percent. Write all of them, and the loss, one way",
    ]);
    expect(problemsOf(scenario("      a: {parts: {ring: 1400 g, dice: 0 g}}"))).toEqual([
      "t.yaml:9:39: `dice` is nothing of the whole. Write more than zero, or leave it out",
    ]);
    expect(problemsOf(scenario("      a: {parts: {}}\n      b: {parts: {ring: 1400 g}}"))).toEqual([
      "t.yaml:9:18: the breakdown gives no part of `squash`. Write the parts and their weights, such as `ring: 480 g`",
    ]);
  });
});

describe("pieces", () => {
  it("weigh the part divided by their number, rounded down", () => {
    const piece = (lines: string) => resolved(scenario(lines)).parts[0]?.pieceWeight;
    expect(piece("      a: {parts: {ring: 1000 g, dice: 400 g}, pieces: {ring: 3}}")).toBe(grams("333.333"));
    expect(piece("      a: {parts: {ring: 480 g, dice: 920 g}, pieces: {ring: 4}}")).toBe(grams("120"));
    expect(piece("      a: {parts: {ring: 40 %, dice: 60 %}, pieces: {ring: 4}}")).toBe(grams("140"));
    expect(piece("      a: {parts: {ring: 1400 g}}")).toBeNull();
  });

  it("are of parts that the breakdown gives", () => {
    expect(problemsOf(scenario("      a: {parts: {ring: 1400 g}, pieces: {rnig: 4}}"))).toEqual([
      "t.yaml:9:43: the breakdown gives no part `rnig`. Did you mean `ring`?",
    ]);
    expect(problemsOf(scenario("      a: {parts: {ring: 1400 g}, pieces: {ring: 0}}"))).toEqual([
      "t.yaml:9:49: `ring` has no pieces. Write how many pieces one unit gives, or leave it out",
    ]);
  });

  it("weigh the same by every breakdown that may be used", () => {
    const two = (count: number) =>
      `      a: {parts: {ring: 480 g, dice: 920 g}, pieces: {ring: 4}}\n      b: {parts: {ring: 960 g, dice: 440 g}, pieces: {ring: ${count}}}`;
    expect(resolved(scenario(two(8))).parts[0]?.pieceWeight).toBe(grams("120"));
    expect(problemsOf(scenario(two(4)))).toEqual([
      "t.yaml:10:25: one piece of `squash ring` weighs 120 g by one breakdown and 240 g by another. Give the two sizes different names",
    ]);
    const chosen = scenario(two(4)).replace("    breakdowns:", "    cut: [b]\n    breakdowns:");
    expect(resolved(chosen).parts[0]?.pieceWeight).toBe(grams("240"));
  });
});

describe("the class of a part", () => {
  it("is food unless it is said to be otherwise, and one everywhere", () => {
    const cut = (first: string, second: string) =>
      `      a: {parts: {ring: 1000 g, peel: ${first}}}\n      b: {parts: {ring: 1000 g, peel: ${second}}}`;
    const inedible = "{weight: 400 g, class: inedible}";
    const classOf = (text: string) => resolved(text).parts.find(({ name }) => name === "squash peel")?.class;
    expect(classOf(scenario(cut("400 g", "400 g")))).toBe("food");
    expect(classOf(scenario(cut(inedible, "400 g")))).toBe("inedible");
    expect(classOf(scenario(cut(inedible, inedible)))).toBe("inedible");
    expect(classOf(scenario(cut(inedible, "400 g"), { parts: "{squash peel: {class: food}}" }))).toBe("food");
    expect(problemsOf(scenario(cut(inedible, "{weight: 400 g, class: food}")))).toEqual([
      "t.yaml:10:39: `squash peel` is inedible in one place and food in another. Give it one class, or two names",
    ]);
  });

  it("lets no dish be made of what is not food", () => {
    const inedible = "      a: {parts: {ring: {weight: 1400 g, class: inedible}}}";
    expect(problemsOf(scenario(inedible))).toEqual([
      "t.yaml:11:60: `squash ring` is inedible, and a dish takes food. Take another part; if this one is eaten here, add `squash ring: {class: food}` under `parts:`",
    ]);
    expect(resolved(scenario(inedible, { parts: "{squash ring: {class: food}}" })).parts[0]?.class).toBe(
      "food",
    );
  });
});

describe("a part that must not be eaten", () => {
  const tables = {
    ...NO_TABLES,
    items: [
      tableItem("rhubarb", "with leaves", "trimmed", [
        ["stalk", "75", "food", 3, null],
        ["leaf", "25", "never", 1, null],
      ]),
    ],
  };
  const text = (from: string, parts = "{}") => `scenario: t
currency: EUR
services: [{name: Lunch, date: 2026-10-02}]
items: {rhubarb: {price: 1 / head}}
parts: ${parts}
dishes: {dish: {portions: 10, lines: [{amount: 50 g, from: ${from}}]}}
`;

  it("stays so whatever the scenario says", () => {
    expect(problemsOf(text("rhubarb stalk", "{rhubarb leaf: {class: food}}"), tables)).toEqual([
      "t.yaml:5:31: `rhubarb leaf` must not be eaten, and no scenario can make it otherwise. Leave its class out",
    ]);
  });

  it("stays so in a breakdown of the scenario's own", () => {
    const own = text("rhubarb stalk").replace(
      "price: 1 / head",
      "price: 1 / head, breakdowns: {mine: {parts: {stalk: 80 %, leaf: {weight: 20 %, class: food}}}}",
    );
    expect(problemsOf(own, tables)).toEqual([
      "t.yaml:4:83: `rhubarb leaf` must not be eaten, and no scenario can make it otherwise. Leave its class out",
    ]);
  });
});
