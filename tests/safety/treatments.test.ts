import { describe, expect, it } from "vitest";
import { isTreated } from "../../src/safety/treatments.js";

describe("a treatment a dish declares", () => {
  it.each([
    ["boiled 10 minutes and water discarded", ["boiled 10 minutes and water discarded"]],
    ["boiled 10 minutes and water discarded", ["Water discarded; boil for at least 15 min"]],
    ["boiled 10 minutes and water discarded", ["boiled 10min", "discard the water"]],
    ["boiled 10 minutes and water discarded", ["boiling 10-12 minutes, then water discarded"]],
    [
      "soaked 5 hours, boiled 10 minutes and water discarded",
      ["soaked overnight", "boiled half tender, boiled 1 h", "water discarded"],
    ],
    [
      "soaked 5 hours, boiled 10 minutes and water discarded",
      ["soaked 300 minutes, boiled 10 minutes, water discarded"],
    ],
    ["cooked thoroughly", ["thoroughly cooked"]],
    ["held at 5 C and used within 7 days", ["held at 5 C and used within 3 days"]],
    [
      "peeled, cooked thoroughly and water discarded",
      ["Peeled", "cooked thoroughly & water discarded", "salted"],
    ],
  ])("%s: covered by %j", (wanted, declared) => {
    expect(isTreated(declared, wanted)).toBe(true);
  });

  it.each([
    ["boiled 10 minutes and water discarded", []],
    ["boiled 10 minutes and water discarded", ["boiled 10 minutes"]],
    ["boiled 10 minutes and water discarded", ["boiled 9 minutes, water discarded"]],
    ["boiled 10 minutes and water discarded", ["boiled and water discarded"]],
    ["boiled 10 minutes and water discarded", ["not boiled 10 minutes, water discarded"]],
    ["boiled 10 minutes and water discarded", ["steamed 10 minutes, water discarded"]],
    ["boiled 10 minutes and water discarded", ["boiled 10 minutes, water kept"]],
    ["boiled 10 minutes and water discarded", ["boiled 8-12 minutes and water discarded"]],
    [
      "soaked 5 hours, boiled 10 minutes and water discarded",
      ["soaked 5 minutes, boiled 10 hours, water discarded"],
    ],
    ["held at 5 C and used within 7 days", ["held at 5 C and used within 30 days"]],
    ["held at 5 C and used within 7 days", ["held at 20 C and used within 7 days"]],
    ["cooked thoroughly", ["cooked"]],
  ])("%s: not covered by %j", (wanted, declared) => {
    expect(isTreated(declared, wanted)).toBe(false);
  });
});
