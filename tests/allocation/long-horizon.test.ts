import { describe, expect, it } from "vitest";
import { buildModel, ModelTooLarge } from "../../src/allocation/index.js";
import { ModelBuilder } from "../../src/allocation/model.js";
import { scenarioOf } from "../support/examples.js";
import { soupEveryDay } from "../support/soup-every-day.js";

describe("the model of a long horizon", () => {
  it("has as many rows, variables and terms a day, however many days there are", () => {
    const size = (days: number): number[] => {
      const { rows, variables } = buildModel(scenarioOf(soupEveryDay(days))).model;
      return [rows.length, variables.length, rows.reduce((sum, { terms }) => sum + terms.length, 0)];
    };
    const [one = [], two = []] = [size(80), size(160)];
    two.forEach((count, index) => {
      expect(count / (one[index] ?? 0)).toBeLessThan(2.05);
    });
  });

  it("is refused, with what to split, before it is larger than memory holds", () => {
    const builder = new ModelBuilder();
    const add = (count: number): void => {
      for (let index = 0; index < count; index++) builder.variable({ family: "cut" }, `v${index}`, 1);
    };
    add(200_000);
    expect(() => add(1)).toThrow(ModelTooLarge);
    expect(new ModelTooLarge().message).toContain(
      "Split the scenario: write fewer services, dishes or items",
    );
  });
});
