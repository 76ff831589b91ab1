import { describe, expect, it } from "vitest";
import type { Part, PartOnHand, Scenario } from "../../src/kitchen/index.js";
import { grams, money } from "../../src/quantity/index.js";
import { checkSafety, criticalSteps, DEFERENCE } from "../../src/safety/index.js";
import { aDish, aLine, anItem, aPart, aScenario, aService, aStaple, aStep } from "../support/nouns.js";
import { buildScenario, servingOf } from "../support/scenario-builder.js";

const blocks = (scenario: Scenario) => checkSafety(scenario).blocks;
const codes = (scenario: Scenario) => checkSafety(scenario).warnings.map(({ code }) => code);
const rhubarb = anItem({ name: "rhubarb", unitWeight: grams("500"), breakdowns: [] });
const leaf = (facts: Partial<Part> = {}) => aPart("rhubarb leaf", "inedible", { item: "rhubarb", ...facts });
const withLeaf = (stated: Partial<Scenario>, facts: Partial<Part> = {}) =>
  buildScenario({ items: [rhubarb], ...stated, parts: [leaf(facts), ...(stated.parts ?? [])] });
const onHand = { part: "rhubarb leaf", weight: grams("100"), value: money("0"), useBy: null, lastDay: null };
const later = { use: "pesto", limit: grams("100"), valuePerKilogram: money("0") };

describe("a part that is never food", () => {
  it("may be there and go to waste", () => {
    expect(checkSafety(withLeaf({}))).toEqual({ blocks: [], warnings: [] });
    expect(checkSafety(withLeaf({}, { class: "never" })).blocks).toEqual([]);
    const composting = withLeaf({
      parts: [aPart("leaf mould", "inedible")],
      steps: [aStep("rot", ["rhubarb leaf"], { "leaf mould": "1" })],
    });
    expect(blocks(composting)).toEqual([]);
  });

  it.each<[string, Scenario]>([
    ["classed as food", withLeaf({}, { class: "food" })],
    ["in green pie", withLeaf({ dishes: [aDish("green pie", [aLine("50", "rhubarb leaf")])] })],
    [
      "in green pie",
      withLeaf(
        { dishes: [aDish("green pie", [aLine("50", ["rhubarb stalk", "rhubarb leaf"])])] },
        { class: "never" },
      ),
    ],
    ["on hand", withLeaf({ partsOnHand: [onHand] })],
    ["kept for pesto", withLeaf({}, { carry: later })],
    [
      'made into food by "wilt"',
      withLeaf({
        parts: [aPart("green paste")],
        steps: [aStep("wilt", ["rhubarb leaf"], { "green paste": "1" })],
      }),
    ],
    [
      'made into food by "dry"',
      withLeaf({
        parts: [aPart("dry leaf", "inedible"), aPart("green powder")],
        steps: [
          aStep("dry", ["rhubarb leaf"], { "dry leaf": "1" }),
          aStep("grind", ["dry leaf"], { "green powder": "1" }),
        ],
      }),
    ],
  ])("is refused when it is %s", (use, scenario) => {
    const found = blocks(scenario).filter(({ part }) => part === "rhubarb leaf");
    expect(found).toHaveLength(1);
    expect(found[0]?.code).toBe("never-food");
    expect(found[0]?.text).toContain(use);
    expect(found[0]?.text).toContain("Northern New England Poison Center");
  });

  it("says the hazard, then the rule, then who says so", () => {
    const [block] = blocks(withLeaf({ dishes: [aDish("green pie", [aLine("50", "rhubarb leaf")])] }));
    expect(block).toEqual({
      code: "never-food",
      text:
        "rhubarb leaf must not be eaten (in green pie): soluble oxalates, possibly anthraquinone glycosides. " +
        "Only the stalk is food. Source: MedlinePlus; BC Drug and Poison Information Centre " +
        "(dpic.org/faq/rhubarb-leaves); Northern New England Poison Center; University of Guelph Food Safety Network.",
      source:
        "MedlinePlus; BC Drug and Poison Information Centre (dpic.org/faq/rhubarb-leaves); " +
        "Northern New England Poison Center; University of Guelph Food Safety Network",
      part: "rhubarb leaf",
      dish: "green pie",
    });
  });

  it("is refused as a staple, whatever else the dish holds", () => {
    const scenario = buildScenario({ dishes: [aDish("cake", [], [aStaple("apricot kernels", "0.1")])] });
    expect(blocks(scenario).map(({ code, part, dish }) => [code, part, dish])).toEqual([
      ["never-food", "apricot kernels", "cake"],
    ]);
  });

  it("stays refused where a kitchen or its tables class a part so and no row speaks of it", () => {
    const spines = aPart("nopal spines", "never");
    const inDish = buildScenario({ parts: [spines], dishes: [aDish("salad", [aLine("5", "nopal spines")])] });
    expect(blocks(inDish).map(({ code, part }) => [code, part])).toEqual([["never-food", "nopal spines"]]);
    expect(blocks(buildScenario({ parts: [spines] }))).toEqual([]);
  });

  it("is found where the item's name carries it and where steps go round in a circle", () => {
    const scenario = buildScenario({
      items: [anItem({ name: "apricot kernels", unitWeight: grams("1"), breakdowns: [] })],
      parts: [
        aPart("apricot kernels ground", "food", { item: "apricot kernels" }),
        aPart("paste"),
        aPart("crumb"),
      ],
      steps: [
        aStep("a", ["apricot kernels ground", "crumb"], { paste: "1" }),
        aStep("b", ["paste"], { crumb: "1" }),
      ],
    });
    expect(blocks(scenario).map(({ part }) => part)).toContain("apricot kernels ground");
  });
});

describe("a part that needs a treatment", () => {
  const beans = anItem({ name: "red kidney bean", form: "dry", unitWeight: grams("1000"), breakdowns: [] });
  const chain = (treatments: readonly string[]) =>
    buildScenario({
      items: [beans],
      parts: [
        aPart("red kidney bean bean", "food", { item: "red kidney bean" }),
        aPart("house mash", "food", { state: "cooked" }),
      ],
      steps: [aStep("mash", ["red kidney bean bean"], { "house mash": "1" })],
      dishes: [aDish("dip", [aLine("50", "house mash")], [], { treatments })],
    });

  it("is demanded of the dish through the steps it went through, cooked or not", () => {
    const [block] = blocks(chain([]));
    expect(block).toMatchObject({ code: "treatment-needed", part: "house mash", dish: "dip" });
    expect(block?.text).toContain(
      'the dish must declare "soaked 5 hours, boiled 10 minutes and water discarded"',
    );
    expect(block?.text).toContain("University of Guelph Food Safety Network");
    expect(blocks(chain(["soaked overnight, boiled 15 minutes and water discarded"]))).toEqual([]);
  });

  it("is printed as a critical step", () => {
    const scenario = chain(["soaked 5 hours, boiled 10 minutes and water discarded"]);
    const [dish] = scenario.dishes;
    const steps = dish === undefined ? [] : criticalSteps(scenario, dish);
    expect(steps.map(({ part, source }) => [part, source])).toEqual([
      ["house mash", "University of Guelph Food Safety Network; FDA Bad Bug Book"],
    ]);
    expect(steps[0]?.text).toContain("boil briskly in fresh water at least 10 minutes");
    expect(codes(scenario)).toContain("critical-step");
  });

  it("is met by what the dish declares and not by the state of the part", () => {
    const morels = (state: Part["state"], treatments: readonly string[]) =>
      servingOf({ item: "morel", part: "half", partFacts: { state }, dish: { treatments } });
    for (const state of ["raw", "cooked", "frozen"] as const) {
      expect(blocks(morels(state, [])).map(({ code }) => code)).toEqual(["treatment-needed"]);
      expect(blocks(morels(state, ["cooked thoroughly"]))).toEqual([]);
    }
  });

  it("is not asked of a tin, by name or by form", () => {
    const tin = (form: string) => servingOf({ item: "red kidney bean", part: "bean", itemFacts: { form } });
    expect(blocks(tin("dry"))).toHaveLength(1);
    expect(blocks(tin("canned, drained"))).toEqual([]);
    const staple = (name: string) => buildScenario({ dishes: [aDish("chili", [], [aStaple(name, "0.1")])] });
    expect(blocks(staple("kidney beans"))).toHaveLength(1);
    expect(blocks(staple("tinned kidney beans"))).toEqual([]);
  });
});

describe("people who fall ill easily", () => {
  const mousse = (vulnerableDiners: boolean) =>
    buildScenario({ vulnerableDiners, dishes: [aDish("pudding", [], [], { rawEgg: true })] });

  it("raw egg is advised against, and refused to them", () => {
    // Food Code 3-302.13, read in WAC 246-215-03312; 3-801.11, read in LAC 51:XXIII.1911.
    const advised = checkSafety(mousse(false));
    expect(advised.blocks).toEqual([]);
    expect(advised.warnings.map(({ code, source, dish }) => [code, source, dish])).toEqual([
      ["raw-egg", "FDA Food Code 3-302.13 (Washington WAC 246-215-03312)", "pudding"],
    ]);
    expect(blocks(mousse(true)).map(({ code, dish }) => [code, dish])).toEqual([["raw-egg", "pudding"]]);
    expect(blocks(mousse(true))[0]?.source).toContain("3-801.11");
  });

  it("raw seed sprouts are warned of, and refused to them unless cooked", () => {
    const sprouts = (vulnerableDiners: boolean, treatments: readonly string[] = []) =>
      servingOf({
        item: "mung bean sprouts",
        part: "sprout",
        dish: { treatments },
        scenario: { vulnerableDiners },
      });
    expect(blocks(sprouts(false))).toEqual([]);
    expect(codes(sprouts(false))).toContain("caution");
    expect(blocks(sprouts(true)).map(({ source }) => source)).toEqual([
      "FDA Food Code 3-801.11 (Montana ARM 37.110)",
    ]);
    expect(blocks(sprouts(true, ["cooked thoroughly"]))).toEqual([]);
    expect(
      blocks(servingOf({ item: "Brussels sprouts", part: "half", scenario: { vulnerableDiners: true } })),
    ).toEqual([]);
  });

  it("a dish usually made with raw egg is asked about where it holds egg and does not say", () => {
    const asked = (dish: string, item: string, handling: "egg" | "plant") =>
      aScenario({
        services: [aService("Friday dinner")],
        items: [
          anItem({ name: item, handling, unitWeight: grams("60"), breakdowns: [], allergens: ["egg"] }),
        ],
        parts: [aPart(`${item} yolk`, "food", { item, keepsDays: 2 })],
        dishes: [aDish(dish, [aLine("20", `${item} yolk`)])],
      });
    expect(codes(asked("Sauce béarnaise", "egg", "egg"))).toEqual(["raw-egg"]);
    expect(codes(asked("omelette", "egg", "egg"))).toEqual([]);
    expect(codes(asked("mayonnaise", "carrot", "plant"))).toEqual([]);
  });
});

describe("names and dates", () => {
  it("refuses a part no table knows as food until the kitchen answers for it, and prints that it does", () => {
    const serving = (item: string, part: string, partFacts: Partial<Part> = {}, inTables = true) =>
      servingOf({
        item,
        part,
        partFacts: { keepsDays: 2, inTables: false, ...partFacts },
        itemFacts: { inTables },
      });
    const refused = (...asked: Parameters<typeof serving>) =>
      blocks(serving(...asked)).map(({ code }) => code);
    expect(refused("rhubarb", "flumph")).toEqual(["unknown-part"]);
    expect(blocks(serving("rhubarb", "flumph"))[0]?.text).toContain("rhubarb leaf");
    expect(refused("rhubarb", "stalk")).toEqual([]);
    expect(refused("rhubarb", "diced stalk")).toEqual([]);
    expect(refused("carrot", "flumph")).toEqual(["unknown-part"]);
    expect(refused("carrot", "flumph", { inTables: true })).toEqual([]);
    // An item that no table holds: even its plainest part is unknown.
    expect(refused("zorble", "leaf", {}, false)).toEqual(["unknown-part"]);
    expect(refused("courgette", "ring", {}, false)).toEqual([]);
    const said = serving("zorble", "leaf", { foodBy: "A. Cook, grown here for its leaves" }, false);
    expect(blocks(said)).toEqual([]);
    expect(checkSafety(said).warnings.map(({ code, text }) => [code, text])).toEqual([
      [
        "stated-food",
        "zorble leaf is food on this kitchen's own word (\"A. Cook, grown here for its leaves\"); no table knows it as food. Source: this kitchen's own statement.",
      ],
    ]);
  });

  it("takes no one's word for what must never be eaten", () => {
    const sworn = servingOf({
      item: "rhubarb",
      part: "leaf",
      partFacts: { inTables: false, foodBy: "A. Cook" },
    });
    expect(blocks(sworn).map(({ code }) => code)).toEqual(["never-food"]);
  });

  it("knows what is made of food, and asks about food made of what is not", () => {
    const made = (kind: Part["class"]) =>
      buildScenario({
        items: [anItem({ name: "carrot", unitWeight: grams("500"), breakdowns: [] })],
        parts: [
          aPart("carrot coin", kind, { item: "carrot" }),
          aPart("carrot flumph", "food", { item: "carrot", inTables: false, keepsDays: 1 }),
        ],
        steps: [aStep("flumph", ["carrot coin"], { "carrot flumph": "1" })],
      });
    expect(blocks(made("food"))).toEqual([]);
    expect(blocks(made("inedible")).map(({ part }) => part)).toEqual(["carrot flumph"]);
  });

  const dice = (facts: Partial<Part>, lastDay?: number | null, since?: PartOnHand["since"]): Scenario =>
    servingOf({
      item: "tomato",
      part: "dice",
      partFacts: { keepsDays: 2, ...facts },
      scenario:
        lastDay === undefined
          ? {}
          : {
              partsOnHand: [
                {
                  part: "tomato dice",
                  weight: grams("100"),
                  value: money("0"),
                  useBy: null,
                  lastDay,
                  ...(since && { since }),
                },
              ],
            },
    });

  it("says where the legal date is shorter than the stated life", () => {
    expect(codes(dice({}))).toEqual([]);
    expect(codes(dice({ keepsDays: 7 }))).toEqual([]);
    expect(codes(dice({ keepsDays: 8 }))).toEqual(["date-mark"]);
    expect(codes(dice({ keepsDays: null }))).toEqual(["date-mark"]);
    expect(codes(dice({ keepsDays: 300, state: "frozen" }))).toEqual([]);
    const pickle = buildScenario({ parts: [aPart("pickled peel", "food", { keepsDays: 60 })] });
    expect(checkSafety(pickle).warnings[0]?.text).toContain("pH 4.6 or less");
  });

  it("says where stock on hand has no date or one the law does not allow", () => {
    expect(codes(dice({}, 3))).toEqual([]);
    expect(codes(dice({}, 6))).toEqual([]);
    expect(codes(dice({}, 7))).toEqual(["use-by-too-late"]);
    // In the rest of a plan the days count from when it came into the house, four days before the rest's first.
    const came = { how: "on hand", day: -4, part: "tomato dice" } as const;
    expect(codes(dice({}, 2, came))).toEqual([]);
    expect(codes(dice({}, 3, came))).toEqual(["use-by-too-late"]);
    expect(codes(dice({}, 9, { how: "cut", day: -4 }))).toEqual([]);
    expect(codes(dice({}, 9, { ...came, part: "tomato" }))).toEqual([]);
    expect(codes(dice({}, null))).toEqual(["no-use-by"]);
    expect(codes(dice({ state: "frozen" }, null))).toEqual(["frozen-on-hand"]);
    // The scenario begins on 2 October 2026: day 7 of food made then is the 8th.
    expect(checkSafety(dice({}, null)).warnings[0]?.text).toContain("2026-10-08");
  });

  it("says where what is left of a dish is kept too long", () => {
    const kept = (keepsDays: number) => buildScenario({ dishes: [aDish("soup", [], [], { keepsDays })] });
    expect(codes(kept(7))).toEqual([]);
    expect(codes(kept(8))).toEqual(["date-mark"]);
  });

  it("leaves an ordinary kitchen in peace, and defers", () => {
    const plain = servingOf({ item: "carrot", part: "coin", partFacts: { keepsDays: 3 } });
    expect(checkSafety(plain)).toEqual({ blocks: [], warnings: [] });
    expect(DEFERENCE).toContain("Local food codes");
  });
});
