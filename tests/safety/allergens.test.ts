import { describe, expect, it } from "vitest";
import { grams } from "../../src/quantity/index.js";
import { allergensOfItem, canonicalAllergen } from "../../src/safety/allergens.js";
import {
  type Allergen,
  allergensOfDish,
  allergensOfPart,
  checkSafety,
  guestAllergens,
  mayContain,
} from "../../src/safety/index.js";
import { aDish, aLine, anItem, aPart, aStaple, aStep } from "../support/nouns.js";
import { ALLERGEN_LISTS, ALLERGENS } from "../support/safety-tables.js";
import { buildScenario, servingOf } from "../support/scenario-builder.js";

describe("the lists of the law", () => {
  it("United States: nine, sesame the ninth", () => {
    // FDA, FASTER Act: milk, eggs, fish, Crustacean shellfish, tree nuts, peanuts, wheat, soybeans, sesame.
    expect([...ALLERGEN_LISTS["US nine"].allergens].sort()).toEqual([
      "crustaceans",
      "egg",
      "fish",
      "milk",
      "peanuts",
      "sesame",
      "soybeans",
      "tree nuts",
      "wheat",
    ]);
  });

  it("European Union and United Kingdom: fourteen, in the Annex's order", () => {
    // Regulation (EU) 1169/2011 Annex II.
    expect(ALLERGEN_LISTS["EU and UK fourteen"].allergens).toEqual([
      "cereals containing gluten",
      "crustaceans",
      "egg",
      "fish",
      "peanuts",
      "soybeans",
      "milk",
      "tree nuts",
      "celery",
      "mustard",
      "sesame",
      "sulphites",
      "lupin",
      "molluscs",
    ]);
  });

  it("leave nothing out between them", () => {
    const both = new Set(
      Object.values(ALLERGEN_LISTS).flatMap(({ allergens }): readonly Allergen[] => allergens),
    );
    expect([...both].sort()).toEqual([...ALLERGENS].sort());
  });
});

describe("the allergens of a food by its name", () => {
  // Annex II names what each class holds (almonds, spelt, ...); the rest is common practice, no source.
  it.each<[string, Allergen[]]>([
    ["celery", ["celery"]],
    ["celeriac", ["celery"]],
    ["Knollensellerie", ["celery"]],
    ["celery leaf", ["celery"]],
    ["egg", ["egg"]],
    ["duck eggs", ["egg"]],
    ["mayonnaise", ["egg"]],
    ["salmon", ["fish"]],
    ["anchovies", ["fish"]],
    ["fish sauce", ["fish"]],
    ["Worcestershire sauce", ["fish"]],
    ["prawns", ["crustaceans"]],
    ["crab", ["crustaceans"]],
    ["langoustine", ["crustaceans"]],
    ["mussels", ["molluscs"]],
    ["squid", ["molluscs"]],
    ["cherrystone clam", ["molluscs"]],
    ["milk", ["milk"]],
    ["butter", ["milk"]],
    ["crème fraîche", ["milk"]],
    ["Parmesan", ["milk"]],
    ["ghee", ["milk"]],
    ["wheat bread", ["wheat", "cereals containing gluten"]],
    ["sourdough", ["wheat", "cereals containing gluten"]],
    ["plain flour", ["wheat", "cereals containing gluten"]],
    ["couscous", ["wheat", "cereals containing gluten"]],
    ["spelt", ["wheat", "cereals containing gluten"]],
    ["Weizenmehl", ["wheat", "cereals containing gluten"]],
    ["pearl barley", ["cereals containing gluten"]],
    ["rye", ["cereals containing gluten"]],
    ["oats", ["cereals containing gluten"]],
    ["almonds", ["tree nuts"]],
    ["walnut", ["tree nuts"]],
    ["Brazil nuts", ["tree nuts"]],
    ["macadamia nuts", ["tree nuts"]],
    ["peanuts", ["peanuts"]],
    ["peanut butter", ["peanuts"]],
    ["groundnut oil", ["peanuts"]],
    ["soy sauce", ["wheat", "cereals containing gluten", "soybeans"]],
    ["tofu", ["soybeans"]],
    ["Soymilk", ["soybeans"]],
    ["flor de calabaza", []],
    ["edamame", ["soybeans"]],
    ["tahini", ["sesame"]],
    ["sesame oil", ["sesame"]],
    ["Dijon mustard", ["mustard"]],
    ["mustard greens", ["mustard"]],
    ["white wine", ["sulphites"]],
    ["dried apricots", ["sulphites"]],
    ["lupin flour", ["lupin"]],
    ["pesto", ["milk", "tree nuts"]],
  ])("%s", (name, allergens) => {
    expect(allergensOfItem(name)).toEqual(allergens);
  });

  it.each(
    `
    carrot; potato; butternut squash; butter bean; butterhead lettuce; coconut milk; coconut; nutmeg; water chestnut; chestnuts
    buckwheat; rice flour; gram flour; cornflour; eggplant; oyster mushroom; pine nuts; cocoa butter; tamarind; bitter gourd
    spaghetti squash; chicken; beef; olive oil; apple; leek; parsley; breadfruit; gluten free bread; vegan mayonnaise; corn tortilla
  `
      .split(/[;\n]/)
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  )("%s carries none", (name) => {
    expect(allergensOfItem(name)).toEqual([]);
  });

  it.each<[string, Allergen | null]>([
    ["dairy", "milk"],
    ["Milk", "milk"],
    ["eggs", "egg"],
    ["gluten", "cereals containing gluten"],
    ["nuts", "tree nuts"],
    ["Crustacean shellfish", "crustaceans"],
    ["molluscs", "molluscs"],
    ["mollusks", "molluscs"],
    ["soya", "soybeans"],
    ["sulphur dioxide", "sulphites"],
    ["sulfites", "sulphites"],
    ["Sellerie", "celery"],
    ["lupine", "lupin"],
    ["wheat", "wheat"],
    ["peanut", "peanuts"],
    ["tree nuts", "tree nuts"],
    ["sesame seeds", "sesame"],
    ["kiwi", null],
    ["", null],
  ])("the word %j in a list means %s", (word, allergen) => {
    expect(canonicalAllergen(word)).toBe(allergen);
  });

  it("every allergen is known by its own printed name", () => {
    for (const allergen of ALLERGENS) expect(canonicalAllergen(allergen), allergen).toBe(allergen);
  });
});

describe("allergens on their way into a dish", () => {
  const soup = buildScenario({
    items: [
      anItem({ name: "celery", unitWeight: grams("500"), breakdowns: [] }),
      anItem({ name: "trout", handling: "fish", unitWeight: grams("300"), breakdowns: [] }),
      anItem({
        name: "old hen fruit",
        handling: "egg",
        unitWeight: grams("60"),
        breakdowns: [],
        allergens: ["kiwi"],
      }),
    ],
    parts: [
      aPart("celery trim", "food", { item: "celery" }),
      aPart("trout frame", "inedible", { item: "trout" }),
      aPart("old hen fruit yolk", "food", { item: "old hen fruit" }),
      aPart("pot liquor", "food", { state: "cooked" }),
      aPart("reduction", "food", { state: "cooked" }),
    ],
    steps: [
      aStep("pot", ["celery trim", "trout frame"], { "pot liquor": "1" }),
      aStep("reduce", ["pot liquor"], { reduction: "1" }),
    ],
    dishes: [
      aDish(
        "soup",
        [aLine("100", "reduction")],
        [{ ...aStaple("other staples", "0.1"), allergens: ["mustard"] }, aStaple("double cream", "0.2")],
        { allergens: ["sesame"] },
      ),
      aDish("cup", [aLine("20", "old hen fruit yolk")]),
    ],
  });

  it("celery of a stock of celery trim is not forgotten, two steps on", () => {
    expect(allergensOfPart(soup, "reduction").allergens).toEqual(["fish", "celery"]);
  });

  it("a dish gathers its own, its staples' and its parts'", () => {
    const [dish, cup] = soup.dishes;
    expect(dish && allergensOfDish(soup, dish).allergens).toEqual([
      "milk",
      "fish",
      "sesame",
      "celery",
      "mustard",
    ]);
    // What handling says, and a word no list knows, are kept too.
    expect(cup && allergensOfDish(soup, cup)).toEqual({ allergens: ["egg"], others: ["kiwi"] });
  });

  it("an allergen that only a name tells is warned of, with the laws as source", () => {
    const said = checkSafety(soup).warnings.filter(({ code }) => code === "allergen-undeclared");
    expect(said.map(({ dish, text }) => [dish, /carries (.*?) by/.exec(text)?.[1]])).toEqual([
      ["soup", "milk, fish, celery"],
      ["cup", "egg"],
    ]);
    expect(said[0]?.source).toContain("1169/2011");
  });

  it.each([
    ["celery", "without celery", true],
    ["celery", "celery-free", true],
    ["celery", "no celery", true],
    ["celery", "ohne Sellerie", true],
    ["celery", "without milk", false],
    ["celery", "vegetarian", false],
    ["peanut", "nut-free", true],
    ["almond", "nut free", true],
    ["barley", "wheat free", false],
    ["barley", "gluten-free", true],
    ["spelt", "gluten free", true],
    ["mussel", "free from shellfish", true],
    ["barley", "glutenfrei", true],
    ["barley", "coeliac", true],
    ["barley", "Zöliakie", true],
    ["celery", "celery allergy", true],
    ["celery", "selleriefrei", true],
    ["mussel", "eats shellfish", false],
    ["celery", "with celery", false],
  ])("%s in a dish said to be %j is refused: %s", (item, diet, refused) => {
    const scenario = servingOf({ item, part: "piece", dish: { diets: [diet] } });
    const codes = checkSafety(scenario).blocks.map(({ code }) => code);
    expect(codes.includes("allergen-claim")).toBe(refused);
  });
});

describe("what a dish may contain", () => {
  const fryer = (shares: readonly (readonly string[])[], diets: readonly string[] = []) =>
    buildScenario({
      items: [
        anItem({ name: "potato", unitWeight: grams("200"), breakdowns: [], mayContain: ["Sellerie"] }),
        anItem({ name: "cod", handling: "fish", unitWeight: grams("900"), breakdowns: [] }),
      ],
      parts: [aPart("potato chip", "food", { item: "potato" }), aPart("cod fillet", "food", { item: "cod" })],
      dishes: [
        aDish("chips", [aLine("200", "potato chip")], [], { shares: shares[0] ?? [], diets }),
        aDish("fried cod", [aLine("150", "cod fillet")], [aStaple("beer batter of wheat", "0.1")], {
          shares: shares[1] ?? [],
          mayContain: ["sesame", "kiwi"],
        }),
      ],
    });
  const chips = (scenario: ReturnType<typeof fryer>) => {
    const [dish] = scenario.dishes;
    return dish === undefined ? null : mayContain(scenario, dish);
  };

  it("is what its items' labels say, and all of the dishes that share its equipment", () => {
    expect(chips(fryer([]))).toEqual({ allergens: ["celery"], others: [] });
    expect(chips(fryer([["Fryer"], ["fryer"]]))).toEqual({
      allergens: ["fish", "wheat", "cereals containing gluten", "sesame", "celery"],
      others: ["kiwi"],
    });
    expect(chips(fryer([["fryer"], ["grill"]]))).toEqual({ allergens: ["celery"], others: [] });
  });

  it("makes a dish unfit for guests who must do without it", () => {
    const codes = (scenario: ReturnType<typeof fryer>) =>
      checkSafety(scenario).blocks.map(({ code, text }) => [code, /may contain \w+/.exec(text)?.[0]]);
    expect(codes(fryer([["fryer"], ["fryer"]], ["without fish"]))).toEqual([
      ["allergen-claim", "may contain fish"],
    ]);
    expect(codes(fryer([["fryer"], ["grill"]], ["without fish"]))).toEqual([]);
  });

  it("leaves nothing unsaid under a shorter list, and says a cereal once", () => {
    const barley = { allergens: ["cereals containing gluten", "celery"] as const, others: ["kiwi"] };
    expect(guestAllergens(barley, "us nine")).toEqual({
      told: [],
      besides: ["cereals containing gluten", "celery", "kiwi"],
    });
    const wheat = { allergens: ["wheat"] as const, others: [] };
    expect(guestAllergens(wheat, "us nine")).toEqual({ told: ["wheat"], besides: [] });
    expect(guestAllergens(wheat, "eu and uk fourteen")).toEqual({
      told: ["cereals containing gluten"],
      besides: ["wheat among them"],
    });
    for (const choice of ["us nine", "eu and uk fourteen", "both"] as const)
      for (const allergen of ALLERGENS) {
        const { told, besides } = guestAllergens({ allergens: [allergen], others: [] }, choice);
        expect([...told, ...besides].join(), `${allergen}, ${choice}`).toContain(allergen);
      }
  });
});
