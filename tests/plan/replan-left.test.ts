import { afterAll, describe, expect, it } from "vitest";
import { Engines, verifyAnew } from "../../src/allocation/index.js";
import { decisionOf } from "../../src/contract/index.js";
import { pastOf, restOf } from "../../src/insight/index.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { planScenario, replan } from "../../src/planning/index.js";
import { grams, total } from "../../src/quantity/index.js";
import { problemText } from "../../src/reading/index.js";
import { lastDayLeftByLot, lastDayOfLot } from "../../src/safety/index.js";
import { weightBeforeWorking } from "../../src/waste/index.js";
import { exampleText, rewritten, scenarioOf } from "../support/examples.js";
import { expectBalanced } from "../support/plan-checks.js";
import { WAITING_POT } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

/** Invented. Of 8 kg of ring, peeled on Thursday, Friday waits for 2 kg of flesh. */
const PEELED = `scenario: Peeled rings
currency: EUR
services:
  - {name: Thursday, date: 2026-10-08, sitting: dinner, covers: 20}
  - {name: Friday, date: 2026-10-09, sitting: dinner, covers: 20, courses: {main: 100 %}}
items:
  marrow:
    form: test
    price: 2.00 / head
    unit_weight: 1000 g
    keeps: 1 day
    cut: [rings]
    breakdowns:
      rings: {parts: {ring: 800 g, trim: {weight: 200 g, class: inedible}}}
parts:
  marrow ring: {keeps: 1 day}
  marrow flesh: {keeps: 3 days}
  marrow rind: {class: inedible}
steps:
  peel: {from: marrow ring, gives: {marrow flesh: 50 %, marrow rind: 50 %}}
destinations:
  staff: {kind: given away, takes: [food, portions], limit: 1 kg}
dishes:
  ring plate: {services: Thursday, portions: 20, lines: [{amount: 100 g, from: marrow flesh}]}
  pot: {course: main, services: Friday, lines: [{amount: 100 g, from: marrow flesh}]}
`;

async function onTheDay(text: string, happened: string) {
  const scenario = scenarioOf(text);
  const { plan: kept } = await planScenario(scenario, { engines, seconds: 10 });
  const source = { file: "h.yaml", text: happened };
  const { replanned, problems } = await replan({ plan: kept, file: "k.plan.json" }, scenario, source, {
    engines,
    seconds: 10,
  });
  expect(problems.map(problemText)).toEqual([]);
  if (replanned?.plan == null) throw new Error("no plan");
  const { plan, scenario: now, rest } = replanned;
  expectBalanced(plan);
  const decision = decisionOf(plan, now);
  const before = now.services.length - rest.scenario.services.length;
  expect(verifyAnew(decision, now, before)).toEqual([]);
  return { plan, decision, kept, scenario };
}

async function pastAt(text: string, before: string) {
  const scenario = scenarioOf(text);
  const { plan } = await planScenario(scenario, { engines, seconds: 10 });
  const past = pastOf(decisionOf(plan, scenario), scenario, { before }, () => undefined);
  if (past === null) throw new Error("no past");
  return { past, scenario };
}

const FIVE_COME = "before: Friday\ncovers: {Friday: 5}\n";

describe("what is left for the rest of a plan", () => {
  it("is, of a limit, counted by the weight before a step that is done", async () => {
    const { decision } = await onTheDay(PEELED, FIVE_COME);
    // 1.5 kg of flesh are over, a gram of which was two of ring: of a limit of 1 kg, 500 g.
    const given = decision.sends.filter(({ destination }) => destination === "staff");
    expect(given.map(({ lot, weight }) => [lot.part, weight])).toEqual([["marrow flesh", 500_000n]]);
  });

  it("is, of a limit, less what went there before, worked and cooked, as the limit counts it", async () => {
    const text = rewritten(
      rewritten(
        PEELED,
        "portions: 20, lines: [{amount: 100 g, from: marrow flesh}]",
        "portions: 20, batch: {portions: 24}, lines: [{amount: 100 g, from: marrow flesh}]",
      ),
      "sitting: dinner, covers: 20}",
      "sitting: dinner, covers: 20, overage: 20 %}",
    );
    const { past, scenario } = await pastAt(text, "Friday");
    const limitAfter = (decision: Decision) =>
      restOf({ ...past, decision }, scenario, []).destinations.find(({ name }) => name === "staff")?.limit;
    // Four portions over of 100 g each; then 150 g of flesh too, which were 300 g of ring.
    expect(limitAfter(past.decision)).toBe(600_000n);
    const lot = { part: "marrow flesh", origin: { kind: "cut", service: 0 } } as const;
    const sends = [{ lot, destination: "staff", weight: grams("150") }];
    expect(limitAfter({ ...past.decision, sends })).toBe(300_000n);
  });

  it("keeps past the plan under the last day of the whole plan's days", async () => {
    const text = rewritten(
      PEELED,
      "marrow flesh: {keeps: 3 days}",
      "marrow flesh: {keeps: 3 days, keep: {use: Saturday's soup, limit: 2 kg, value: 1.00 / kg}}",
    );
    const { plan, decision } = await onTheDay(text, FIVE_COME);
    expect(decision.kept.map(({ weight, lastDay }) => [weight, lastDay])).toEqual([[1_500_000n, 2]]);
    expect(plan.leftovers).toContainEqual(
      expect.objectContaining({ part: "marrow flesh", weight: "1500", useBy: "2026-10-10" }),
    );
  });

  describe("goes where it is stated to go, of what the house held", () => {
    const withHeap = rewritten(PEELED, "destinations:", "destinations:\n  heap: {kind: compost}");

    it("in parts", async () => {
      const held = rewritten(
        withHeap,
        "marrow rind: {class: inedible}\nsteps:\n",
        `marrow rind: {class: inedible}
  marrow jam: {keeps: 14 days, on_hand: {weight: 1 kg, use_by: 2026-10-20, destination: heap}}
steps:
  jam: {from: marrow flesh, gives: {marrow jam: 100 %}}
`,
      );
      const spoon = "  spoon: {services: Friday, portions: 2, lines: [{amount: 100 g, from: marrow jam}]}\n";
      const { decision } = await onTheDay(`${held}${spoon}`, FIVE_COME);
      expect(decision.kept).toEqual([]);
      expect(decision.sends).toContainEqual({
        lot: { part: "marrow jam", origin: { kind: "onHand", index: 0 } },
        destination: "heap",
        weight: grams("800"),
      });
    });

    it("whole", async () => {
      const held = rewritten(
        withHeap,
        "    cut: [rings]\n",
        "    on_hand: {amount: 3 head, use_by: 2026-10-20, destination: heap}\n    cut: [rings]\n",
      );
      const { decision } = await onTheDay(held, FIVE_COME);
      // Thursday's seven leave flesh enough; the three that the house held keep, and are not kept.
      expect(decision.keptItems).toEqual([]);
      const gone = [...decision.cuts, ...decision.binned].filter(({ service }) => service === 1);
      expect(total(gone.map(({ weight }) => weight))).toBe(grams("3000"));
    });
  });

  it("has of every lot the dates and the weight before working that it has in the whole plan", async () => {
    const frozen = rewritten(
      rewritten(
        rewritten(
          PEELED,
          "  peel:",
          "  freeze: {from: marrow flesh, gives: {marrow ice: 100 %}}\n  thaw: {from: marrow ice, gives: {marrow mash: 80 %}, loss: 20 %}\n  peel:",
        ),
        "marrow flesh: {keeps: 3 days}",
        "marrow flesh: {keeps: 3 days, on_hand: {weight: 900 g, use_by: 2026-10-09}}\n  marrow ice: {keeps: 60 days, state: frozen}\n  marrow mash: {keeps: 2 days, state: cooked}",
      ),
      "Friday, lines: [{amount: 100 g, from: marrow flesh}]",
      "Friday, lines: [{amount: 100 g, from: [marrow ice, marrow mash]}]",
    );
    const { past, scenario } = await pastAt(frozen, "Friday");
    const stock = { part: "marrow ice", origin: { kind: "onHand", index: 0 } } as const;
    const left = [...past.left, { lot: stock, weight: grams("100") }];
    const rest = restOf({ ...past, left }, scenario, []);
    const compared = left.flatMap(({ lot: { part, origin } }, index) => {
      const made = scenario.steps.filter(({ from }) => from.includes(part)).flatMap(({ yields }) => yields);
      return [part, ...made.map((each) => each.part)].map((name) => {
        const of = (day: number, each: Scenario, from: typeof origin) => {
          const lot = { part: name, origin: from };
          const [last, leaves] = [lastDayOfLot(lot, each), lastDayLeftByLot(lot, 2 - day, each)];
          const days = [last, leaves].map((at) => (at === null ? null : at + day));
          return [name, ...days, weightBeforeWorking(lot, each).toFixed()];
        };
        return [of(1, rest, { kind: "onHand", index }), of(0, scenario, origin)];
      });
    });
    expect(compared.map(([ofRest]) => ofRest)).toEqual(compared.map(([, ofWhole]) => ofWhole));
    expect(compared.map(([ofRest]) => ofRest)).toContainEqual(["marrow mash", 1, 1, "1.25"]);
  });

  it("counts a dish that waits and is cooked again as one dish of its course", async () => {
    const text = rewritten(
      rewritten(WAITING_POT, "dishes: 1 to 2", "dishes: 2 to 2"),
      "currency: EUR\n",
      "currency: EUR\naim: cost\n",
    );
    const { plan, kept, scenario } = await onTheDay(
      text,
      "before: Friday\ncovers: {Friday: 40}\ncan_buy: marrow\n",
    );
    // One more pot would be all of the thirty that are wanting; a second dish has to be there.
    const mains = plan.dishes.filter(({ course, service }) => course === "main" && service === "Friday");
    expect(mains.map(({ dish }) => dish)).toContain("roast");
    // The ten that wait are all that ten people eat: there is no second dish to be.
    const source = { file: "h.yaml", text: "before: Friday\ncovers: {Friday: 10}\ncan_buy: marrow\n" };
    const all = await replan({ plan: kept, file: "k" }, scenario, source, { engines, seconds: 10 });
    expect(all.replanned?.plan).toBeNull();
    expect(all.replanned?.rest.plan.reasons.map(({ change }) => change)).toContainEqual(
      expect.stringContaining("least dishes of main at Friday"),
    );
  });

  it("is enough for the invented hall where less came out, more come and more can be bought", async () => {
    const { plan } = await onTheDay(
      exampleText("demo"),
      `before: Saturday lunch
delivered: {leek: 52}
cut:
  Friday dinner: {broccoli stem: 1.2 kg}
covers: {Saturday dinner: 66}
can_buy: [leek, broccoli]
`,
    );
    expect(plan.services.at(-1)).toMatchObject({ name: "Saturday dinner", covers: 66 });
  });
});
