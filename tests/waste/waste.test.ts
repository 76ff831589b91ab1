import { describe, expect, it } from "vitest";
import type { Decision, Lot, PartUse, Scenario } from "../../src/kitchen/index.js";
import { Decimal } from "../../src/quantity/index.js";
import { lossesOf, needlessSteps, weightBeforeWorking } from "../../src/waste/index.js";
import { leekItem, leekScenario } from "../support/leek.js";
import { aDecision } from "../support/nouns.js";
import { breakdownOf, dishOf, g, lineOf, partOf, stepOf } from "../support/small-scenario.js";

const cut = (part: string): Lot => ({ part, origin: { kind: "cut", service: 0 } });

const NOTHING = aDecision({});

const going = (part: string, dish: string, weight: number): PartUse => ({
  lot: cut(part),
  dish,
  service: 0,
  line: 0,
  weight: g(weight),
  pieces: null,
});

const prep = (step: string, from: string, weight: number): Decision["preps"][number] => ({
  step,
  from: cut(from),
  service: 0,
  weight: g(weight),
  water: g(0),
  parts: [],
  loss: g(0),
});

/** Green is peeled to heart at a half, a quarter skin and a quarter loss; heart is diced, which loses nothing. */
const peeled = (soup: readonly string[], more: Partial<Scenario> = {}): Scenario =>
  leekScenario([dishOf("soup", 1, [lineOf(20, soup)]), dishOf("salad", 1, [lineOf(10, ["leek dice"])])], {
    steps: [
      stepOf("peel", ["leek green"], { "leek heart": "0.5", "leek skin": "0.25" }),
      stepOf("dice", ["leek heart"], { "leek dice": "1" }),
    ],
    parts: [
      ...leekScenario([]).parts,
      partOf("leek heart", "leek"),
      partOf("leek dice", "leek"),
      partOf("leek skin", "leek", "inedible"),
    ],
    ...more,
  });

describe("food lost in steps", () => {
  const lost = (scenario: Scenario, decision: Partial<Decision>): string =>
    lossesOf(scenario, { ...NOTHING, ...decision }).lostFood.toString();

  it("is all that peeling takes off where the line takes green as it is", () => {
    const soup = { preps: [prep("peel", "leek green", 40)], goings: [going("leek heart", "soup", 20)] };
    expect(lost(peeled(["leek green", "leek heart"]), soup)).toBe("20000");
    expect(lost(peeled(["leek heart"]), soup)).toBe("0");
  });

  it("is so where the peeled part has had another step besides", () => {
    const soup = {
      preps: [prep("peel", "leek green", 40), prep("dice", "leek heart", 20)],
      goings: [going("leek dice", "soup", 20)],
    };
    expect(lost(peeled(["leek green", "leek dice"]), soup)).toBe("20000");
    expect(lost(peeled(["leek dice"]), soup)).toBe("0");
  });

  it("leaves out what another dish needs peeled", () => {
    // 10 g of dice for the salad take 20 g of green; of 60 g peeled, 40 g were not needed: half of it is lost.
    const both = {
      preps: [prep("peel", "leek green", 60), prep("dice", "leek heart", 10)],
      goings: [going("leek heart", "soup", 20), going("leek dice", "salad", 10)],
    };
    expect(lost(peeled(["leek green", "leek heart"]), both)).toBe("20000");
  });

  it("is not what a share below all of the line makes necessary", () => {
    const soup = [{ part: "leek green", mostShare: lineOf(1, ["x"]).cookingYield.div(2) }, "leek heart"];
    const scenario = { ...peeled(["leek heart"]), dishes: [dishOf("soup", 1, [lineOf(20, soup)])] };
    const decision = { preps: [prep("peel", "leek green", 20)], goings: [going("leek heart", "soup", 10)] };
    expect(lost(scenario, decision)).toBe("0");
  });

  it("is named with the going that could have done without the step, and with what it was worked on", () => {
    const goings = [going("leek dice", "soup", 20), going("leek dice", "salad", 10)];
    expect(needlessSteps(peeled(["leek green", "leek dice"]), { ...NOTHING, goings })).toEqual([
      [{ step: "peel", sources: ["leek green"] }],
      [],
    ]);
  });

  describe("of a step on one part or another", () => {
    /** White and green are peeled to heart alike; a soup takes one of them as it is, a broth both, a salad neither. */
    const either = leekScenario(
      [
        dishOf("soup", 1, [lineOf(20, ["leek green", "leek heart"])]),
        dishOf("broth", 1, [lineOf(20, ["leek white", "leek green", "leek heart"])]),
        dishOf("salad", 1, [lineOf(10, ["leek heart"])]),
      ],
      {
        steps: [stepOf("peel", ["leek white", "leek green"], { "leek heart": "0.5", "leek skin": "0.25" })],
        parts: [...peeled([]).parts],
      },
    );
    const heart = (dish: string, weight: number): PartUse => going("leek heart", dish, weight);

    it("is what a line had peeled of the one that it takes as it is", () => {
      const soup = [heart("soup", 20)];
      expect(lost(either, { preps: [prep("peel", "leek green", 40)], goings: soup })).toBe("20000");
      expect(lost(either, { preps: [prep("peel", "leek white", 40)], goings: soup })).toBe("0");
    });

    it("is not what another line needs peeled of it", () => {
      // Of 60 g of green, 20 g may be in the salad; of the soup's, 20 g are white.
      const preps = [prep("peel", "leek green", 60), prep("peel", "leek white", 20)];
      expect(lost(either, { preps, goings: [heart("soup", 30), heart("salad", 10)] })).toBe("20000");
    });

    it("is all that nobody needed of either", () => {
      // The salad needs 20 g, of the one or of the other; the broth could have had the other 40 g as they were.
      const preps = [prep("peel", "leek green", 20), prep("peel", "leek white", 40)];
      expect(lost(either, { preps, goings: [heart("broth", 20), heart("salad", 10)] })).toBe("20000");
    });
  });

  it("is what is peeled off, though the peeled part then takes up water; and is no water that boils away", () => {
    const soaked = (yields: Record<string, string>) =>
      peeled(["leek green", "leek heart"], {
        steps: [stepOf("peel and soak", ["leek green"], yields, { water: new Decimal("0.5") })],
      });
    const soup = {
      preps: [prep("peel and soak", "leek green", 40)],
      goings: [going("leek heart", "soup", 20)],
    };
    expect(lost(soaked({ "leek heart": "1.2", "leek skin": "0.3" }), soup)).toBe("12000");
    expect(lost(soaked({ "leek heart": "1" }), soup)).toBe("0");
    expect(lost(soaked({ "leek heart": "0.8" }), soup)).toBe("8000");
  });

  it("is what a step takes off beyond another that takes all that it takes, and for the same", () => {
    const thickly = (thinFrom: string[], thinYields: Record<string, string>) =>
      peeled(["leek heart"], {
        steps: [
          stepOf("peel", ["leek green"], { "leek heart": "0.5", "leek skin": "0.25" }),
          stepOf("peel thinly", thinFrom, thinYields),
        ],
      });
    const soup = { preps: [prep("peel", "leek green", 40)], goings: [going("leek heart", "soup", 20)] };
    expect(lost(thickly(["leek green", "leek white"], { "leek heart": "0.8" }), soup)).toBe("12000");
    expect(lost(thickly(["leek white"], { "leek heart": "0.8" }), soup)).toBe("0");
    expect(lost(thickly(["leek green", "leek root"], { "leek heart": "0.8" }), soup)).toBe("0");
    expect(lost(thickly(["leek green"], { "leek dice": "0.5", "leek heart": "0.5" }), soup)).toBe("0");
  });
});

describe("food lost in cuts, and peel", () => {
  const two = leekScenario([], {
    items: [
      leekItem({
        breakdowns: [
          breakdownOf("thick", 200, { "leek white": 80, "leek green": 60, "leek root": 60 }),
          breakdownOf("wet", 200, { "leek white": 90, "leek green": 60, "leek root": 40 }),
          breakdownOf("thin", 200, { "leek white": 100, "leek green": 60, "leek root": 40 }),
        ],
      }),
    ],
  });
  const cutBy = (breakdown: string): Decision["cuts"][number] => ({
    ...{ item: "leek", breakdown, service: 0, units: 1, weight: g(200), loss: g(0) },
    parts: [],
  });
  const sent = (weight: number) => [{ lot: cut("leek root"), destination: "refuse", weight: g(weight) }];

  it("are each beyond the least that the item's breakdowns lose", () => {
    const { cuts } = lossesOf(two, { ...NOTHING, cuts: ["thick", "wet", "thin"].map(cutBy) });
    expect(cuts.map(({ lost, peelBeyond }) => [lost, peelBeyond].map(String))).toEqual([
      ["0", "20000"],
      ["10000", "0"],
      ["0", "0"],
    ]);
  });

  it.each([
    [60, "20000"],
    [20, "20000"],
    [15, "15000"],
    [0, "0"],
  ])("count peel only as far as it is thrown away: of %d g, %s mg", (thrown, avoidable) => {
    const decision = { ...NOTHING, cuts: [cutBy("thick")], sends: sent(thrown) };
    expect(lossesOf(two, decision).avoidablePeel.toString()).toBe(avoidable);
  });

  it("know bones from peel", () => {
    const bones = two.parts.map((part) => (part.name === "leek root" ? { ...part, isPeel: false } : part));
    const decision = { ...NOTHING, cuts: [cutBy("thick")], sends: sent(60) };
    expect(lossesOf({ ...two, parts: bones }, decision).avoidablePeel.toString()).toBe("0");
  });
});

describe("what a part weighs before working", () => {
  it("is followed down the chain of steps, but not behind what is cut as it is", () => {
    const scenario = peeled(["leek dice"], {
      steps: [
        stepOf("peel", ["leek green"], { "leek heart": "0.5", "leek skin": "0.25" }),
        stepOf("dice", ["leek heart"], { "leek dice": "0.8" }),
        stepOf("rinse", ["leek white"], { "leek green": "0.5" }),
      ],
    });
    const weight = (part: string): number => weightBeforeWorking(cut(part), scenario).toNumber();
    expect(["leek white", "leek green", "leek heart", "leek dice"].map(weight)).toEqual([1, 1, 2, 2.5]);
  });
});
