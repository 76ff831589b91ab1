import { describe, expect, it } from "vitest";
import type { Decision, RecipeLine, Scenario } from "../../src/kitchen/index.js";
import { keepLedger, LedgerError, totalsFromTransfers } from "../../src/ledger/index.js";
import { Decimal, grams, money, total } from "../../src/quantity/index.js";
import { gramsText, moneyText, movementsOf, weightsOf } from "../support/ledger-checks.js";
import {
  aBreakdown,
  aCooking,
  aDecision,
  aDish,
  aGoing,
  aLine,
  anItem,
  aPart,
  aScenario,
  aService,
  aStaple,
  aStep,
  cutLot,
  REFUSE,
  STAFF_MEAL,
} from "../support/nouns.js";

// Invented figures, worked by hand.

const FRIDAY = aService("Friday dinner");
const SATURDAY = aService("Saturday lunch", 1);
const onHand = { kind: "onHand", index: 0 } as const;

/** One part on hand at 6.00 for 600 g, and what is done with it. */
function heldPart(name: string, stated: Partial<Scenario>): Scenario {
  return aScenario({
    services: [FRIDAY, SATURDAY],
    items: [],
    parts: [aPart(name)],
    partsOnHand: [{ part: name, weight: grams("600"), value: money("6"), useBy: null, lastDay: null }],
    ...stated,
  });
}

describe("a line stated cooked", () => {
  const cooked = (cookingYield: string | null, goings: readonly string[]) => {
    const scenario = heldPart("rice", { dishes: [aDish("rice", [aLine("100", "rice", cookingYield)])] });
    const decision = aDecision({
      goings: goings.map((weight) => aGoing({ part: "rice", origin: onHand }, "rice", grams(weight))),
      cookings: [aCooking("rice", 6)],
    });
    return movementsOf(keepLedger(scenario, decision), "part:rice >").concat(
      movementsOf(keepLedger(scenario, decision), "water >"),
    );
  };

  it("counts its cooked weight, and what cooks away as cooking loss without money", () => {
    expect(cooked("0.75", ["600"])).toEqual([
      "part:rice > dish:rice @ Friday dinner: 450 g, 6 (rice)",
      "part:rice > loss:cooking: 150 g, 0 (cooking rice)",
    ]);
  });

  it("takes up water where it gains", () => {
    expect(cooked("2.6", ["600"])).toEqual([
      "part:rice > dish:rice @ Friday dinner: 600 g, 6 (rice)",
      "water > dish:rice @ Friday dinner: 960 g, 0 (taken up in cooking rice)",
    ]);
  });

  it("counts its raw weight where it is stated raw, whatever cooking makes of it", () => {
    const whole = ["part:rice > dish:rice @ Friday dinner: 600 g, 6 (rice)"];
    expect(cooked(null, ["600"])).toEqual(whole);
    const raw: RecipeLine = { ...aLine("100", "rice"), cookingYield: new Decimal("0.75") };
    const scenario = heldPart("rice", { dishes: [aDish("rice", [raw])] });
    const decision = aDecision({
      goings: [aGoing({ part: "rice", origin: onHand }, "rice", grams("600"))],
      cookings: [aCooking("rice", 6)],
    });
    expect(movementsOf(keepLedger(scenario, decision), "part:rice >")).toEqual(whole);
  });

  it("is rounded once for the line, not for every going", () => {
    // Thirds of 100.001, 100.001 and 399.998 g, each rounded by itself, would make 200.001 g.
    const third = new Decimal(1).div(3).toString();
    const inDish = cooked(third, ["100.001", "100.001", "399.998"]).filter((line) => line.includes("dish:"));
    const weights = inDish.map((line) => grams(/: ([\d.]+) g/.exec(line)?.[1] ?? "0"));
    expect(weights).toHaveLength(3);
    expect(gramsText(total(weights))).toBe("200");
  });
});

describe("a step", () => {
  const pot = (water: string, given: readonly [string, string][], loss: string) => {
    const scenario = heldPart("bone", {
      parts: [aPart("bone", "inedible"), aPart("stock"), aPart("marrow"), aPart("spent bone", "inedible")],
      steps: [aStep("pot", ["bone"], {})],
    });
    const lot = (part: string) => ({ part, origin: onHand });
    const decision = aDecision({
      preps: [
        {
          step: "pot",
          from: lot("bone"),
          service: 0,
          weight: grams("600"),
          water: grams(water),
          parts: given.map(([part, weight]) => ({ part, weight: grams(weight) })),
          loss: grams(loss),
        },
      ],
      sends: given.map(([part, weight]) => ({
        lot: lot(part),
        destination: "refuse",
        weight: grams(weight),
      })),
    });
    return movementsOf(keepLedger(scenario, decision), "(pot for");
  };

  it("puts the water into its first yield and gives its cost to the food it makes, by weight", () => {
    const given: [string, string][] = [
      ["stock", "900"],
      ["marrow", "100"],
      ["spent bone", "450"],
    ];
    expect(pot("900", given, "50")).toEqual([
      "part:bone > part:stock: 0 g, 5.4 (pot for Friday dinner)",
      "water > part:stock: 900 g, 0 (pot for Friday dinner)",
      "part:bone > loss:cutting: 50 g, 0 (pot for Friday dinner)",
      "part:bone > part:marrow: 100 g, 0.6 (pot for Friday dinner)",
      "part:bone > part:spent bone: 450 g, 0 (pot for Friday dinner)",
    ]);
  });

  it("lets water that the first yield has no weight for steam away, then into the rest", () => {
    const given: [string, string][] = [
      ["stock", "400"],
      ["spent bone", "700"],
    ];
    expect(pot("900", given, "400")).toEqual([
      "part:bone > part:stock: 0 g, 6 (pot for Friday dinner)",
      "water > part:stock: 400 g, 0 (pot for Friday dinner)",
      "water > loss:cooking: 400 g, 0 (pot for Friday dinner)",
      "part:bone > part:spent bone: 600 g, 0 (pot for Friday dinner)",
      "water > part:spent bone: 100 g, 0 (pot for Friday dinner)",
    ]);
  });

  it("gives its cost to what it makes when that is nothing for eating", () => {
    expect(pot("0", [["spent bone", "600"]], "0")).toEqual([
      "part:bone > part:spent bone: 600 g, 6 (pot for Friday dinner)",
    ]);
  });

  it("that runs in a circle is refused", () => {
    const scenario = heldPart("bone", { parts: [aPart("bone"), aPart("stock")] });
    const turn = (from: string, to: string): Decision["preps"][number] => ({
      step: "turn",
      from: { part: from, origin: onHand },
      service: 0,
      weight: grams("600"),
      water: grams("0"),
      parts: [{ part: to, weight: grams("600") }],
      loss: grams("0"),
    });
    const decision = aDecision({
      preps: [turn("bone", "stock"), turn("stock", "bone")],
      sends: [{ lot: { part: "bone", origin: onHand }, destination: "refuse", weight: grams("600") }],
    });
    expect(() => keepLedger(scenario, decision)).toThrow(/steps run in a circle through bone/);
  });
});

describe("portions", () => {
  const soup = (cooking: Partial<Decision["cookings"][number]>) => {
    const scenario = heldPart("dice", {
      dishes: [
        aDish("soup", [aLine("100", "dice")], [aStaple("oil", "0.10"), aStaple("salt", "0.00123")], {
          services: [0, 1],
        }),
      ],
    });
    const decision = aDecision({
      goings: [aGoing({ part: "dice", origin: onHand }, "soup", grams("600"))],
      cookings: [
        {
          dish: "soup",
          service: 0,
          portions: 7,
          served: [{ service: 0, portions: 7 }],
          spare: [],
          ...cooking,
        },
      ],
    });
    return keepLedger(scenario, decision);
  };

  it("eaten later move on to that service, spare ones to their destinations, by largest remainder", () => {
    const ledger = soup({
      served: [
        { service: 0, portions: 4 },
        { service: 1, portions: 1 },
      ],
      spare: [
        { destination: "staff meal", portions: 1 },
        { destination: "refuse", portions: 1 },
      ],
    });
    // A portion is 85,714 2/7 mg and 9,583 5/7 ten-thousandths; four stay.
    expect(movementsOf(ledger, "dish:soup @ Friday dinner >")).toEqual([
      "dish:soup @ Friday dinner > dish:soup @ Saturday lunch: 85.715 g, 0.9584 (kept for Saturday lunch)",
      "dish:soup @ Friday dinner > givenAway:staff meal: 85.714 g, 0.9584 (spare portions)",
      "dish:soup @ Friday dinner > wastedFood:refuse: 85.714 g, 0.9583 (spare portions)",
    ]);
    expect(weightsOf(ledger)).toMatchObject({
      inDishes: "428.572",
      givenAway: "85.714",
      wastedFood: "85.714",
    });
  });

  it("cost their parts and staples, rounded once for the whole cooking", () => {
    const [cost] = soup({}).dishCosts;
    expect(cost).toMatchObject({ dish: "soup", service: 0, portions: 7 });
    expect(moneyText(cost?.cost ?? money("0"))).toBe("6.7086");
    expect(gramsText(cost?.weight ?? grams("0"))).toBe("600");
  });

  it("nobody is given go to refuse even where no destination of the scenario takes them", () => {
    const ledger = keepLedger(
      heldPart("dice", { destinations: [STAFF_MEAL], dishes: [aDish("soup", [aLine("100", "dice")])] }),
      aDecision({
        goings: [aGoing({ part: "dice", origin: onHand }, "soup", grams("600"))],
        cookings: [
          {
            dish: "soup",
            service: 0,
            portions: 1,
            served: [],
            spare: [{ destination: "refuse", portions: 1 }],
          },
        ],
      }),
    );
    expect(weightsOf(ledger)).toMatchObject({ inDishes: "0", wastedFood: "600" });
  });

  it.each<[string, Partial<Decision["cookings"][number]>, string]>([
    [
      "that do not add up",
      { portions: 8 },
      "soup for Friday dinner is cooked in 8 portions, of which 7 are accounted for",
    ],
    ["of which there are none", { portions: 0, served: [] }, "soup is given food but has no portions"],
    [
      "for a destination nobody knows",
      { portions: 8, spare: [{ destination: "moon", portions: 1 }] },
      'the decision names the destination "moon", which is not in the scenario',
    ],
    [
      "cooked for another service",
      { service: 1 },
      "dish:soup @ Friday dinner is given food but never cooked",
    ],
  ])("%s are refused", (_, cooking, message) => {
    expect(() => soup(cooking)).toThrow(new LedgerError(message));
  });

  it("cooked twice for one service are refused", () => {
    const scenario = aScenario({ services: [FRIDAY], items: [], parts: [], dishes: [aDish("soup", [])] });
    const decision = aDecision({ cookings: [aCooking("soup", 1), aCooking("soup", 1)] });
    expect(() => keepLedger(scenario, decision)).toThrow(
      new LedgerError("dish:soup @ Friday dinner is cooked twice"),
    );
  });
});

describe("what is left", () => {
  it("goes by its class and the destination's end", () => {
    const scenario = aScenario({
      services: [FRIDAY],
      items: [],
      parts: [aPart("leaf"), aPart("root", "inedible"), aPart("seed", "never")],
      partsOnHand: ["leaf", "root", "seed"].map((part) => ({
        part,
        weight: grams("20"),
        value: money("0"),
        useBy: null,
        lastDay: null,
      })),
    });
    const send = (part: string, index: number, destination: string) => ({
      lot: { part, origin: { kind: "onHand", index } as const },
      destination,
      weight: grams("10"),
    });
    const sends = ["leaf", "root", "seed"].flatMap((part, index) => [
      send(part, index, "refuse"),
      send(part, index, "staff meal"),
    ]);
    const moved = movementsOf(keepLedger(scenario, aDecision({ sends }))).filter((line) =>
      line.startsWith("part:"),
    );
    expect(moved).toEqual([
      "part:leaf > wastedFood:refuse: 10 g, 0 (left over)",
      "part:leaf > givenAway:staff meal: 10 g, 0 (left over)",
      "part:root > inedible:refuse: 10 g, 0 (not for eating)",
      "part:root > inedible:staff meal: 10 g, 0 (not for eating)",
      "part:seed > inedible:refuse: 10 g, 0 (not for eating)",
      "part:seed > inedible:staff meal: 10 g, 0 (not for eating)",
    ]);
  });
});

describe("a whole item binned", () => {
  const bin = (
    stated: Partial<Scenario>,
    breakdowns = [
      aBreakdown("thick", { flesh: "0.6", peel: "0.4" }, "0"),
      aBreakdown("wasteful", { flesh: "0.7", peel: "0.2", pit: "0.05" }, "0.05"),
      aBreakdown("thrifty", { flesh: "0.7", peel: "0.1", pit: "0.05" }, "0.15"),
    ],
  ) => {
    const scenario = aScenario({
      services: [FRIDAY],
      items: [anItem({ name: "mango", unitWeight: grams("400"), breakdowns })],
      parts: [aPart("flesh"), aPart("peel", "inedible"), aPart("pit", "never")],
      ...stated,
    });
    const decision = aDecision({
      purchases: [{ item: "mango", service: 0, orderUnits: 1, weight: grams("400"), cost: money("2") }],
      binned: [{ item: "mango", service: 0, units: 1, weight: grams("400") }],
    });
    return movementsOf(keepLedger(scenario, decision), "binned whole");
  };

  it("counts as what its thriftiest breakdown would give, the loss as storage loss, the food bearing the cost", () => {
    const cause = "(binned whole before Friday dinner)";
    expect(bin({})).toEqual([
      `item:mango > part:flesh: 280 g, 2 ${cause}`,
      `part:flesh > wastedFood:refuse: 280 g, 2 ${cause}`,
      `item:mango > part:peel: 40 g, 0 ${cause}`,
      `part:peel > inedible:refuse: 40 g, 0 ${cause}`,
      `item:mango > part:pit: 20 g, 0 ${cause}`,
      `part:pit > inedible:refuse: 20 g, 0 ${cause}`,
      `item:mango > loss:storage: 60 g, 0 ${cause}`,
    ]);
  });

  it("goes to a destination for waste that takes it, without a limit if there is one", () => {
    const full = { ...REFUSE, name: "small bin", limit: grams("10") };
    const peelBin = { ...REFUSE, name: "compost", takes: { food: false, inedible: true, portions: false } };
    const to = (stated: Partial<Scenario>) => bin(stated).filter((line) => line.includes("part:flesh >"));
    expect(to({ destinations: [STAFF_MEAL, peelBin, full, { ...REFUSE, name: "big bin" }] })[0]).toContain(
      "> wastedFood:big bin:",
    );
    expect(to({ destinations: [STAFF_MEAL, peelBin, full] })[0]).toContain("> wastedFood:small bin:");
    expect(to({ destinations: [STAFF_MEAL, peelBin] })[0]).toContain("> wastedFood:refuse:");
  });

  it("is food wasted entirely where nobody says how to cut it", () => {
    expect(bin({}, [])).toEqual([
      "item:mango > wastedFood:refuse: 400 g, 2 (binned whole before Friday dinner)",
    ]);
  });
});

describe("avoidable peel", () => {
  it("counts never-eat parts with the inedible ones, and is no more than what ends as inedible", () => {
    const scenario = aScenario({
      services: [FRIDAY],
      items: [
        anItem({
          name: "swede",
          unitWeight: grams("1000"),
          breakdowns: [
            aBreakdown("thin", { flesh: "0.9", peel: "0.1" }, "0"),
            aBreakdown("thick", { flesh: "0.5", peel: "0.3", top: "0.2" }, "0"),
          ],
        }),
      ],
      parts: [aPart("flesh"), aPart("peel", "inedible"), aPart("top", "never"), aPart("crisps")],
    });
    const cut = {
      item: "swede",
      breakdown: "thick",
      service: 0,
      units: 1,
      weight: grams("1000"),
      parts: [
        { part: "flesh", weight: grams("500") },
        { part: "peel", weight: grams("300") },
        { part: "top", weight: grams("200") },
      ],
      loss: grams("0"),
    };
    const purchases = [{ item: "swede", service: 0, orderUnits: 1, weight: grams("1000"), cost: money("1") }];
    const refuse = (part: string, weight: string) => ({
      lot: cutLot(part),
      destination: "refuse",
      weight: grams(weight),
    });
    const thrown = aDecision({
      purchases,
      cuts: [cut],
      sends: [refuse("flesh", "500"), refuse("peel", "300"), refuse("top", "200")],
    });
    expect(weightsOf(keepLedger(scenario, thrown))).toMatchObject({ inedible: "500", avoidablePeel: "400" });
    const crisps = {
      step: "crisp",
      from: cutLot("peel"),
      service: 0,
      weight: grams("300"),
      water: grams("0"),
      parts: [{ part: "crisps", weight: grams("300") }],
      loss: grams("0"),
    };
    const used = aDecision({
      purchases,
      cuts: [cut],
      preps: [crisps],
      sends: [refuse("flesh", "500"), refuse("crisps", "300"), refuse("top", "200")],
    });
    expect(weightsOf(keepLedger(scenario, used))).toMatchObject({ inedible: "200", avoidablePeel: "200" });
  });
});

describe("weights that close only together", () => {
  const halves = { flesh: "0.5", peel: "0.5" };
  const scenario = aScenario({
    services: [FRIDAY, SATURDAY],
    items: [
      anItem({ name: "swede", unitWeight: grams("1000"), breakdowns: [aBreakdown("thin", halves, "0")] }),
    ],
    parts: [aPart("flesh"), aPart("peel", "inedible"), aPart("mash")],
  });
  const cut = (service: number, flesh: string) => ({
    item: "swede",
    breakdown: "thin",
    service,
    units: 1,
    weight: grams("1000"),
    parts: [
      { part: "flesh", weight: grams(flesh) },
      { part: "peel", weight: grams("500") },
    ],
    loss: grams("0"),
  });
  const refuse = (part: string, service: number, weight: string) => ({
    lot: cutLot(part, service),
    destination: "refuse",
    weight: grams(weight),
  });
  const mash = (service: number, weight: string, made: string) => ({
    step: "mash",
    from: cutLot("flesh", service),
    service,
    weight: grams(weight),
    water: grams("0"),
    parts: [{ part: "mash", weight: grams(made) }],
    loss: grams("0"),
  });
  const plan = (stated: Partial<Decision>) =>
    aDecision({
      purchases: [{ item: "swede", service: 0, orderUnits: 2, weight: grams("2000"), cost: money("2") }],
      cuts: [cut(0, "500"), cut(1, "500")],
      ...stated,
    });
  const peels = [refuse("peel", 0, "500"), refuse("peel", 1, "500")];
  const fleshes = [refuse("flesh", 0, "500"), refuse("flesh", 1, "500")];

  it("are taken when each closes by itself", () => {
    const decision = plan({ sends: [...peels, ...fleshes] });
    expect(weightsOf(keepLedger(scenario, decision))).toMatchObject({ wastedFood: "1000", inedible: "1000" });
  });

  it.each<[string, Partial<Decision>, string]>([
    [
      "two lots",
      { sends: [...peels, refuse("flesh", 0, "499"), refuse("flesh", 1, "501")] },
      "flesh, cut for Friday dinner takes in 1.000 g more than leaves it",
    ],
    [
      "two cuts",
      {
        cuts: [cut(0, "501"), cut(1, "499")],
        sends: [...peels, refuse("flesh", 0, "501"), refuse("flesh", 1, "499")],
      },
      "swede, cut as thin, gives out 1.000 g more than it takes in",
    ],
    [
      "two steps",
      {
        preps: [mash(0, "500", "501"), mash(1, "500", "499")],
        sends: [...peels, refuse("mash", 0, "501"), refuse("mash", 1, "499")],
      },
      "flesh, taken for mash, gives out 1.000 g more than it takes in",
    ],
  ])("are refused: %s", (_, stated, message) => {
    expect(() => keepLedger(scenario, plan(stated))).toThrow(new LedgerError(message));
  });
});

describe("totals from transfers", () => {
  it("are read from account names as text, and an unknown account is refused", () => {
    const transfer = { from: "supplier", to: "item:x", weight: grams("1"), money: money("2") };
    expect(totalsFromTransfers([transfer]).weights.purchased).toBe(grams("1"));
    expect(totalsFromTransfers([transfer]).money.spent).toBe(money("2"));
    expect(() => totalsFromTransfers([{ ...transfer, to: "pocket" }])).toThrow(
      new LedgerError('"pocket" is no account of the ledger'),
    );
  });
});
