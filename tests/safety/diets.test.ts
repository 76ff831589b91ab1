import { describe, expect, it } from "vitest";
import { checkSafety } from "../../src/safety/index.js";
import { aStaple } from "../support/nouns.js";
import { servingOf } from "../support/scenario-builder.js";

const claims = (scenario: Parameters<typeof checkSafety>[0]) =>
  checkSafety(scenario)
    .blocks.filter(({ code }) => code === "diet-claim")
    .map(({ text }) => text);

describe("a dish said to be vegan or vegetarian", () => {
  // ISO 23662:2021, from memory: a vegan food holds nothing of animals, a vegetarian one may hold milk and egg.
  it.each([
    ["meat", "vegan", true],
    ["poultry", "vegetarian", true],
    ["fish", "Vegetarisch", true],
    ["egg", "vegan", true],
    ["egg", "vegetarian", false],
    ["plant", "vegan", false],
    ["meat", "without pork", false],
  ] as const)("that holds a %s item, said to be %s, is refused: %s", (handling, diet, refused) => {
    const found = claims(
      servingOf({ item: "thing", part: "piece", itemFacts: { handling }, dish: { diets: [diet] } }),
    );
    expect(found).toHaveLength(refused ? 1 : 0);
    for (const text of found) expect(text).toContain("Source: ISO 23662:2021");
  });

  it.each([
    ["double cream", "vegan", true],
    ["double cream", "vegetarian", false],
    ["bacon bits", "vegetarian", true],
    ["anchovy paste", "vegetarian", true],
    ["coconut milk", "vegan", false],
    ["oyster mushrooms", "vegan", false],
  ])("with %s as a staple, said to be %s, is refused: %s", (staple, diet, refused) => {
    const dish = { diets: [diet], staples: [aStaple(staple, "0.10")] };
    expect(claims(servingOf({ item: "leek", part: "white", dish }))).toHaveLength(refused ? 1 : 0);
  });
});
