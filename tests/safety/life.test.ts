import { describe, expect, it } from "vitest";
import type { Handling, Part } from "../../src/kitchen/index.js";
import { grams } from "../../src/quantity/index.js";
import {
  isPreserved,
  lastOfferDay,
  lastUseDay,
  lastUseDayOnHand,
  tcsOf,
  tcsOnceCut,
} from "../../src/safety/index.js";
import { anItem, aPart } from "../support/nouns.js";

const item = (name: string, handling: Handling = "plant") =>
  anItem({ name, handling, unitWeight: grams("500"), breakdowns: [] });
const part = (name: string, keepsDays: number | null, state: Part["state"] = "raw") =>
  aPart(name, "food", { keepsDays, state });

describe("what needs temperature control once cut", () => {
  // FDA Food Code 1-201.10: cut melons, cut leafy greens, cut tomatoes and mixtures of them, raw seed sprouts,
  // garlic in oil, heat-treated plants. The leafy greens it lists, from memory.
  it.each([
    ["cantaloupe melon", "cut melon"],
    ["watermelon", "cut melon"],
    ["Wassermelone", "cut melon"],
    ["iceberg lettuce", "cut leafy greens"],
    ["romaine", "cut leafy greens"],
    ["escarole", "cut leafy greens"],
    ["spinach", "cut leafy greens"],
    ["cabbage", "cut leafy greens"],
    ["kale", "cut leafy greens"],
    ["arugula", "cut leafy greens"],
    ["Swiss chard", "cut leafy greens"],
    ["beetroot leaves", "cut leafy greens"],
    ["broccoli leaf", "cut leafy greens"],
    ["tomato", "cut tomato"],
    ["cherry tomatoes", "cut tomato"],
    ["mung bean sprouts", "seed sprouts"],
    ["garlic in oil", "in oil"],
    ["vegetable stock", "cooked"],
    ["roasted squash", "cooked"],
  ])("%s: %s", (name, kind) => {
    expect(tcsOnceCut(name)?.kind).toBe(kind);
  });

  // Herbs are not counted among leafy greens (Food Code 1-201.10, from memory); the others are not on the list.
  it.each([
    "carrot",
    "parsley leaf",
    "coriander leaves",
    "basil",
    "Brussels sprouts",
    "broccoli stem",
    "apple",
    "bitter melon",
    "squash ring",
    "potato chip",
    "onion",
    "tomato powder",
    "sauerkraut",
    "dried kale",
  ])("%s: not", (name) => {
    expect(tcsOnceCut(name)).toBeNull();
  });

  it("is all food of animals, all that is cooked, and mixtures unless preserved", () => {
    expect(tcsOf(part("chicken breast", 2), item("chicken", "poultry"))?.kind).toBe("animal");
    expect(tcsOf(part("egg yolk", 2), item("egg", "egg"))?.kind).toBe("animal");
    expect(tcsOf(part("carrot coin", 4, "cooked"), item("carrot"))?.kind).toBe("cooked");
    expect(tcsOf(part("slaw", 4), null)?.kind).toBe("mixture");
    expect(tcsOf(part("peel pickle", 60), null)).toBeNull();
    expect(tcsOf(part("carrot coin", 4), item("carrot"))).toBeNull();
    expect(isPreserved("dried apple peel")).toBe(true);
    expect(isPreserved("apple peel")).toBe(false);
  });
});

describe("the last day of a lot", () => {
  it("is the quality life, the day of cutting being day 1", () => {
    expect(lastUseDay(part("carrot coin", 4), item("carrot"), 0)).toBe(3);
    expect(lastUseDay(part("carrot coin", 1), item("carrot"), 5)).toBe(5);
    expect(lastUseDay(part("carrot coin", null), item("carrot"), 5)).toBeNull();
    expect(lastUseDay(part("carrot coin", 30), item("carrot"), 2)).toBe(31);
  });

  it("is the legal date, t + 6, where that comes first", () => {
    expect(lastUseDay(part("tomato dice", 30), item("tomato"), 2)).toBe(8);
    expect(lastUseDay(part("tomato dice", null), item("tomato"), 2)).toBe(8);
    expect(lastUseDay(part("tomato dice", 7), item("tomato"), 2)).toBe(8);
    expect(lastUseDay(part("tomato dice", 6), item("tomato"), 2)).toBe(7);
    expect(lastUseDay(part("stock", 9, "cooked"), null, 0)).toBe(6);
    expect(lastUseDay(part("chicken thigh", null), item("chicken", "poultry"), 1)).toBe(7);
  });

  it("is the quality life alone while the part is frozen", () => {
    expect(lastUseDay(part("tomato frozen dice", 300, "frozen"), item("tomato"), 0)).toBe(299);
    expect(lastUseDay(part("stock", null, "frozen"), null, 0)).toBeNull();
  });

  it("follows the jurisdiction asked for", () => {
    expect(lastUseDay(part("stock", 9, "cooked"), null, 0, "UK cook-chill guidelines")).toBe(4);
  });

  it("is, on hand, the stated one and never later than food made on day 0", () => {
    const tomato = item("tomato");
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, 1)).toBe(1);
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, 20)).toBe(6);
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, null)).toBe(6);
    expect(lastUseDayOnHand(part("carrot coin", 2), item("carrot"), null)).toBeNull();
    expect(lastUseDayOnHand(part("carrot coin", 2), item("carrot"), 20)).toBe(20);
  });

  it("is, for what is left of a dish, bound by its oldest ingredient", () => {
    expect(lastOfferDay(3, 4, 4)).toBe(6);
    expect(lastOfferDay(3, 5, 0)).toBe(6);
    expect(lastOfferDay(20, 5, 5)).toBe(11);
    expect(lastOfferDay(null, 5, 4)).toBe(5);
  });
});
