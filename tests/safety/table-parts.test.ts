import { describe, expect, it } from "vitest";
import { checkSafety } from "../../src/safety/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { servingOf } from "../support/scenario-builder.js";

const { tables } = loadYieldTables();
const items = [...new Set(tables.items.map(({ name }) => name))];

/** Parts the yield tables call food, each with the item its name begins with; what is made of several has none. */
const foods = new Map(
  [
    ...tables.items.flatMap(({ breakdowns }) => breakdowns.flatMap(({ parts }) => parts)),
    ...tables.steps.flatMap(({ yields }) => yields),
  ].flatMap(({ part, class: kind }) => {
    const owners = items.filter((name) => part.startsWith(`${name} `));
    const [item] = owners.sort((a, b) => b.length - a.length);
    return kind === "food" && item !== undefined ? [[part, item]] : [];
  }),
);

describe("a part that the yield tables call food", () => {
  it("is food in a kitchen's own breakdown too, where the tables do not speak for it", () => {
    const refused = [...foods].flatMap(([name, item]) => {
      const part = name.slice(item.length + 1);
      // Of a plant, parts must be known one by one: the stricter case.
      const served = servingOf({ item, part, partFacts: { inTables: false }, itemFacts: { inTables: true } });
      return checkSafety(served)
        .blocks.filter(({ code }) => code === "unknown-part" || code === "never-food")
        .map(({ text }) => text);
    });
    expect(refused).toEqual([]);
    expect(foods.size).toBeGreaterThan(500);
  });
});
