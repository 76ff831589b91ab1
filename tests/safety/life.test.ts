import { describe, expect, it } from "vitest";
import { addDays, type Handling, type Part } from "../../src/kitchen/index.js";
import { grams } from "../../src/quantity/index.js";
import {
  DEFAULT_RULES,
  lastDayLeftBy,
  lastOfferDay,
  lastUseDay,
  lastUseDayOnHand,
} from "../../src/safety/index.js";
import { isPreserved, tcsOf, tcsOnceCut } from "../../src/safety/tcs.js";
import { anItem, aPart } from "../support/nouns.js";
import { DATE_RULES } from "../support/safety-tables.js";

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
    "carrot stick",
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

describe("the limits of the law", () => {
  it("are the United States' where nothing is said, seven days at 5 C", () => {
    // FDA Food Code 2022, 3-501.17(A), as given by the Southern Nevada Health District and North Carolina.
    expect(DATE_RULES[DEFAULT_RULES]).toMatchObject({
      days: 7,
      heldAtMost: { celsius: 5, fahrenheit: 41 },
      basis: "read",
    });
    // Department of Health (UK) 1989, as given by Lund and Notermans: five days at 0 to 3 C.
    expect(DATE_RULES.uk).toMatchObject({ days: 5, heldAtMost: { celsius: 3 } });
  });
});

describe("the last day of a lot", () => {
  it("is the quality life, the day of cutting being day 1", () => {
    expect(lastUseDay(part("carrot coin", 4), item("carrot"), 0, "us")).toBe(3);
    expect(lastUseDay(part("carrot coin", 1), item("carrot"), 5, "us")).toBe(5);
    expect(lastUseDay(part("carrot coin", null), item("carrot"), 5, "us")).toBeNull();
    expect(lastUseDay(part("carrot coin", 30), item("carrot"), 2, "us")).toBe(31);
  });

  it("is the legal date, t + 6, where that comes first", () => {
    expect(lastUseDay(part("tomato dice", 30), item("tomato"), 2, "us")).toBe(8);
    expect(lastUseDay(part("tomato dice", null), item("tomato"), 2, "us")).toBe(8);
    expect(lastUseDay(part("tomato dice", 7), item("tomato"), 2, "us")).toBe(8);
    expect(lastUseDay(part("tomato dice", 6), item("tomato"), 2, "us")).toBe(7);
    expect(lastUseDay(part("stock", 9, "cooked"), null, 0, "us")).toBe(6);
    expect(lastUseDay(part("chicken thigh", null), item("chicken", "poultry"), 1, "us")).toBe(7);
  });

  it("is 7 April for what was prepared or opened on 1 April, as published", () => {
    // Southern Nevada Health District, date-marking FAQ.
    const last = lastUseDay(part("stock", null, "cooked"), null, 0, DEFAULT_RULES);
    expect(addDays("2024-04-01", last ?? 0)).toBe("2024-04-07");
  });

  it("is the quality life alone while the part is frozen", () => {
    expect(lastUseDay(part("tomato frozen dice", 300, "frozen"), item("tomato"), 0, "us")).toBe(299);
    expect(lastUseDay(part("stock", null, "frozen"), null, 0, "us")).toBeNull();
  });

  it("follows the jurisdiction asked for", () => {
    expect(lastUseDay(part("stock", 9, "cooked"), null, 0, "uk")).toBe(4);
  });

  it("is, on hand, the stated one and never later than food made on day 0", () => {
    const tomato = item("tomato");
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, 1, "us")).toBe(1);
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, 20, "us")).toBe(6);
    expect(lastUseDayOnHand(part("tomato dice", 2), tomato, null, "us")).toBe(6);
    expect(lastUseDayOnHand(part("carrot coin", 2), item("carrot"), null, "us")).toBeNull();
    expect(lastUseDayOnHand(part("carrot coin", 2), item("carrot"), 20, "us")).toBe(20);
  });

  it("is, for what is left of a dish, bound by the oldest part in it that bears a date", () => {
    expect(lastOfferDay(3, 4, [], "us")).toBe(6);
    expect(lastOfferDay(3, 5, [6, null], "us")).toBe(6);
    expect(lastOfferDay(20, 5, [null], "us")).toBe(11);
    expect(lastOfferDay(20, 5, [], "eu")).toBe(8);
    expect(lastOfferDay(null, 5, [4], "us")).toBe(4);
  });

  it("is, for what a lot leaves to a dish, its own legal date, and one day used for what was frozen", () => {
    const cut = (day: number) => ({ kind: "cut", day }) as const;
    const held = (lastDay: number | null, frozen = false) =>
      ({ kind: "on hand", day: 0, lastDay, frozen }) as const;
    const tomato = item("tomato");
    // Southern Nevada Health District, date-marking FAQ; Food Code 3-501.17(D): burgers of June 1 in a chili of June 3 are used by June 7 (day 6 from June 1).
    expect(lastDayLeftBy(part("burger", 7, "cooked"), item("beef", "meat"), cut(0), 2, "us")).toBe(6);
    expect(lastDayLeftBy(part("tomato dice", 3), tomato, cut(1), 3, "us")).toBe(7);
    expect(lastDayLeftBy(part("carrot coin", 3), item("carrot"), cut(1), 3, "us")).toBeNull();
    // North Carolina sheet: the day it was prepared counts, the frozen days do not, that of thawing does again.
    expect(lastDayLeftBy(part("tomato dice", 90, "frozen"), tomato, cut(0), 9, "us")).toBe(14);
    expect(lastDayLeftBy(part("tomato dice", 90, "frozen"), tomato, held(60), 9, "us")).toBe(9);
    expect(lastDayLeftBy(part("tomato dice", 3), tomato, held(5, true), 4, "us")).toBe(4);
    expect(lastDayLeftBy(part("tomato dice", 3), tomato, held(2), 1, "us")).toBe(2);
    expect(lastDayLeftBy(part("tomato dice", 3), tomato, held(null), 1, "us")).toBe(6);
    expect(lastDayLeftBy(part("tomato dice", 3), tomato, held(60), 1, "france")).toBe(3);
  });
});
