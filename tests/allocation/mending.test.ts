import { describe, expect, it } from "vitest";
import { mendCookings, verifyDecision } from "../../src/allocation/index.js";
import type { Decision, Lot, Scenario } from "../../src/kitchen/index.js";
import { Decimal, money } from "../../src/quantity/index.js";
import { dishOf, g, lineOf, partOf, scenarioOf, serviceOf } from "../support/small-scenario.js";

const ALL = { food: true, inedible: true, portions: true };
type Stock = Scenario["partsOnHand"][number];
const stock = (part: string, stated: Partial<Stock> = {}): Stock => ({
  part,
  weight: g(1000),
  value: money("10"),
  useBy: null,
  lastDay: 5,
  ...stated,
});

/** A stew of 290 to 300 g, by a scale of 10 g, from a dear part on hand or a cheap one. */
const stew = (partsOnHand: Stock[]): Scenario =>
  scenarioOf({
    scaleStep: g(10),
    services: [serviceOf("lunch", 0)],
    items: [],
    parts: [partOf("dear", null), partOf("cheap", null)],
    partsOnHand,
    dishes: [dishOf("stew", 1, [lineOf([290, 300], ["dear", "cheap"])])],
    destinations: [
      { name: "bin", kind: "refuse", end: "waste", takes: ALL, limit: g(20) },
      { name: "refuse", kind: "waste", end: "waste", takes: ALL, limit: null },
      { name: "compost", kind: "compost", end: "waste", takes: ALL, limit: null },
    ],
  });

const lot = (index: number): Lot => ({
  part: index === 0 ? "dear" : "cheap",
  origin: { kind: "onHand", index },
});

/** So much of the dear part goes into the stew; of it, and of the cheap one, this is left over. */
const cooked = (left: Partial<Decision>): Decision => ({
  purchases: [],
  cuts: [],
  binned: [],
  keptItems: [],
  preps: [],
  goings: [{ lot: lot(0), dish: "stew", service: 0, line: 0, weight: g(300), pieces: null }],
  cookings: [{ dish: "stew", service: 0, portions: 1, served: [{ service: 0, portions: 1 }], spare: [] }],
  sends: [],
  kept: [],
  ...left,
});

/** The stew is ten cents over; a gram of the dear part costs one, the cheap one nothing. */
const mended = (scenario: Scenario, decision: Decision): Decision | null =>
  mendCookings(
    decision,
    scenario,
    [{ dish: "stew", service: 0, excess: money("0.1") }],
    ({ part }) => new Decimal(part === "dear" ? 0.1 : 0),
    g(10),
  );

const endsOf = (decision: Decision | null): string[] => [
  ...(decision?.goings ?? []).map(({ lot: { part }, weight }) => `${weight} of ${part} cooked`),
  ...(decision?.kept ?? []).map(({ lot: { part }, weight }) => `${weight} of ${part} in stock`),
  ...(decision?.sends ?? []).map(
    ({ lot: { part }, destination, weight }) => `${weight} of ${part} to ${destination}`,
  ),
];

describe("what mending a ceiling leaves out", () => {
  it.each<[string, Partial<Stock>, Partial<Decision>, string]>([
    [
      "stays in stock with the rest of it",
      {},
      { kept: [{ lot: lot(0), weight: g(700), lastDay: 5 }] },
      "710000 of dear in stock",
    ],
    [
      "goes where the stock is stated to go",
      { destination: "compost" },
      { sends: [{ lot: lot(0), destination: "compost", weight: g(700) }] },
      "710000 of dear to compost",
    ],
    [
      "is thrown away without a limit, where its day has come",
      { lastDay: 0 },
      { sends: [{ lot: lot(0), destination: "refuse", weight: g(700) }] },
      "710000 of dear to refuse",
    ],
    ["stays in stock though none did", { weight: g(300) }, {}, "10000 of dear in stock"],
  ])("%s", (_, stated, left, end) => {
    const scenario = stew([stock("dear", stated)]);
    const decision = cooked(left);
    expect(verifyDecision(decision, scenario)).toEqual([]);
    const found = mended(scenario, decision);
    expect(endsOf(found)).toEqual(["290000 of dear cooked", end]);
    expect(found && verifyDecision(found, scenario)).toEqual([]);
  });
});

describe("what mending a ceiling puts in", () => {
  it("comes from what else stays in stock", () => {
    const scenario = stew([stock("dear"), stock("cheap")]);
    const kept = [
      { lot: lot(0), weight: g(700), lastDay: 5 },
      { lot: lot(1), weight: g(1000), lastDay: 5 },
    ];
    const found = mended(scenario, cooked({ kept }));
    expect(endsOf(found)).toEqual([
      "290000 of dear cooked",
      "10000 of cheap cooked",
      "710000 of dear in stock",
      "990000 of cheap in stock",
    ]);
    expect(found && verifyDecision(found, scenario)).toEqual([]);
  });
});
