import { describe, expect, it } from "vitest";
import { grams } from "../../src/quantity/index.js";
import { allergensOfPart, checkSafety, itemsOfPart, lastUseDay } from "../../src/safety/index.js";
import { aBreakdown, aDish, aLine, anItem, aPart } from "../support/nouns.js";
import { buildScenario } from "../support/scenario-builder.js";

const whole = { unitWeight: grams("500") };

describe("a part of two forms of one item", () => {
  it("is held to the hazards of what is really bought, whatever the item is said to be a form of", () => {
    // Rhubarb leaf blades are never food: the tables' row of oxalates.
    const cut = aBreakdown("cut", { "chard leaf": "1" }, "0");
    const scenario = buildScenario({
      items: [
        anItem({ name: "chard", breakdowns: [cut], ...whole }),
        anItem({ name: "rhubarb", of: "chard", breakdowns: [cut], ...whole }),
      ],
      parts: [aPart("chard leaf", "food", { item: "chard" })],
      dishes: [aDish("green pie", [aLine("50", "chard leaf")])],
    });
    const { blocks } = checkSafety(scenario);
    expect(blocks.map(({ code }) => code)).toContain("never-food");
    expect(checkSafety({ ...scenario, items: scenario.items.slice(0, 1) }).blocks).toEqual([]);
  });

  it("is held to the hazards of every item that gives a part of its name", () => {
    const leaf = { "sorrel green leaf": "1" };
    const items = [
      anItem({ name: "sorrel", breakdowns: [aBreakdown("cut", leaf, "0")], ...whole }),
      anItem({ name: "rhubarb", of: "sorrel green", breakdowns: [aBreakdown("cut", leaf, "0")], ...whole }),
    ];
    const part = aPart("sorrel green leaf", "food", { item: "sorrel" });
    const dishes = [aDish("green pie", [aLine("50", "sorrel green leaf")])];
    const blocked = (held: typeof items) =>
      checkSafety(buildScenario({ items: held, parts: [part], dishes })).blocks.map(({ code }) => code);
    expect(blocked(items)).toContain("never-food");
    expect(blocked(items.slice(0, 1))).not.toContain("never-food");
  });

  it("carries the allergens of both, declared and by name", () => {
    const scenario = buildScenario({
      items: [
        anItem({ name: "root", allergens: ["mustard"], breakdowns: [], ...whole }),
        anItem({ name: "celery in water", of: "root", breakdowns: [], ...whole }),
      ],
      parts: [aPart("root dice", "food", { item: "root" })],
    });
    expect(allergensOfPart(scenario, "root dice").allergens).toEqual(["celery", "mustard"]);
  });

  it("is held to the legal date where either form needs one, in any order of the file", () => {
    // Cut tomato is TCS food: 7 days, the day it was cut being day 1 (FDA Food Code 3-501.17).
    const forms = [
      anItem({ name: "salad base", breakdowns: [], ...whole }),
      anItem({ name: "tomato", of: "salad base", breakdowns: [], ...whole }),
    ];
    const part = aPart("salad base dice", "food", { item: "salad base", keepsDays: 30 });
    const lastDay = (items: typeof forms) =>
      lastUseDay(part, itemsOfPart(part, { items })[0] ?? null, 0, "us");
    expect(lastDay(forms.slice(0, 1))).toBe(29);
    expect(lastDay(forms)).toBe(6);
    expect(lastDay([...forms].reverse())).toBe(6);
  });
});
