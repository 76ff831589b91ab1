import { describe, expect, it } from "vitest";
import type { Breakdown, Dish, Item, Part, Scenario, Step } from "../../src/kitchen/index.js";
import { Decimal, money } from "../../src/quantity/index.js";
import { bruteForce } from "../support/brute-force.js";
import { leekScenario } from "../support/leek.js";
import {
  breakdownOf,
  dishOf,
  g,
  itemOf,
  lineOf,
  partOf,
  scenarioOf,
  serviceOf,
  stepOf,
  withGift,
} from "../support/small-scenario.js";
import { COUNTS_NO_PEEL, countsOf } from "../support/waste-counts.js";

/** Best value as text: grams, or currency units. */
function best(scenario: Scenario): string {
  const answer = bruteForce(scenario, scenario.aim, { grain: 10 });
  return answer === "no plan" ? answer : answer.value.toString();
}

const dinner = serviceOf("dinner", 0);

/** A dinner of zubs of 1,000 g at 1.00 each, at most three. */
function zub(
  cuts: readonly Breakdown[],
  dishes: readonly Dish[],
  stated: Partial<Scenario> & { parts?: readonly Part[] } = {},
  item: Partial<Item> = {},
): Scenario {
  return scenarioOf({
    services: [dinner],
    items: [itemOf("zub", 1000, "1.00", 3, cuts, item)],
    dishes,
    ...stated,
    parts: [partOf("zub flesh", "zub"), ...(stated.parts ?? [])],
  });
}

describe("the referee, on waste of every kind worked by hand", () => {
  describe("lost by cuts", () => {
    const ways = [
      breakdownOf("way 1", 1000, { "zub flesh": 900 }),
      breakdownOf("way 2", 1000, { "zub flesh": 600 }),
    ];

    it("counts what a cut loses beyond the least, so that juice is no better than flesh left over", () => {
      // Way 1: 900 - 10 x 60 = 300 over, nothing lost beyond the least. Way 2: nothing over, 400 - 100 = 300 lost.
      expect(best(zub(ways, [dishOf("plate", 10, [lineOf(60, ["zub flesh"])])]))).toBe("300");
      // 15 plates: way 1 uses all 900; way 2 twice has 1,200 - 900 = 300 over and 2 x 300 lost.
      expect(best(zub(ways, [dishOf("plate", 15, [lineOf(60, ["zub flesh"])])]))).toBe("0");
      const [, juicy] = ways as [Breakdown, Breakdown];
      // Where no other way is allowed, what is lost can't be helped.
      expect(best(zub([juicy], [dishOf("plate", 10, [lineOf(60, ["zub flesh"])])]))).toBe("0");
    });
  });

  describe("lost by steps", () => {
    // 250 g: 125 white, 75 green, 40 trim, 10 lost. 20 x 100 g of white are 16 leeks, with 16 x 75 = 1,200 of green.
    const leeks = (soup: readonly string[], frozenDays: number | null, portions = 19) =>
      scenarioOf({
        services: [dinner],
        items: [
          itemOf("leek", 250, "0.45", 17, [
            breakdownOf("split", 250, { "leek white": 125, "leek green": 75, "leek trim": 40 }),
          ]),
        ],
        parts: [
          partOf("leek white", "leek"),
          partOf("leek green", "leek"),
          partOf("leek trim", "leek", "inedible"),
          partOf("frozen green", "leek", "food", { state: "frozen", keepsDays: frozenDays }),
        ],
        steps: [stepOf("freeze", ["leek green"], { "frozen green": "0.96" })],
        dishes: [
          dishOf("gratin", 20, [lineOf(100, ["leek white"])]),
          dishOf("soup", portions, [lineOf(60, soup)]),
        ],
        wasteCounts: COUNTS_NO_PEEL,
      });

    it("counts what a step takes off where the line takes its source as it is", () => {
      // Soup takes 19 x 60 = 1,140 of 1,200: 60 over. Freezing x g of green first loses 0.04 x, which nobody needed,
      // and leaves 0.04 x less over: 60 either way.
      expect(best(leeks(["leek green", "frozen green"], 60))).toBe("60");
    });

    it("does not count what a needed step takes off", () => {
      // Frozen only, 1,140 / 0.96 = 1,187.5 g are needed: 12.5 over, and 47.5 lost as it must be.
      expect(best(leeks(["frozen green"], 60))).toBe("12.5");
      // To have less over by freezing all of it would lose 0.04 x 12.5 = 0.5 for nothing and leave 12 over: as much.
      // 19.2 portions' worth, 1,152 g, take all that can be frozen; 20 need another leek of 75 g green and 125 white.
      expect(best(leeks(["frozen green"], 60, 20))).toBe("150");
    });

    it("takes a step as needed where a share keeps the source out or asks for the output", () => {
      const shared = (least: string, most: string) => {
        const base = leeks(["leek green"], 60);
        const line = lineOf(60, [
          { part: "leek green", mostShare: new Decimal(most) },
          { part: "frozen green", leastShare: new Decimal(least) },
        ]);
        return { ...base, dishes: [...base.dishes.slice(0, 1), dishOf("soup", 19, [line])] };
      };
      // At least half frozen: 570 / 0.96 = 593.75 and 570 as it is, of 1,200: 36.25 over. But a plan may freeze all
      // of it with need: 1,140 / 0.96 = 1,187.5, and 12.5 over.
      expect(best(shared("0.5", "1"))).toBe("12.5");
      expect(best(shared("0", "0.5"))).toBe("12.5");
      expect(best(shared("0", "1"))).toBe("60");
    });

    it("never peels so that less is over", () => {
      // 500 g: 305 floret, 100 stem, 45 leaf, 45 trim, 5 lost. 20 x 120 = 2,400 of 8 x 305 = 2,440: 40 over; stems
      // 8 x 80 = 640 of 800: 160 over; leaves 8 x 45 = 360 over. Peeling 100 g of stem has 78 g of it and 22 lost.
      const broccoli = scenarioOf({
        services: [dinner],
        items: [
          itemOf("broccoli", 500, "1.10", 9, [
            breakdownOf("florets", 500, { floret: 305, stem: 100, leaf: 45, trim: 45 }),
          ]),
        ],
        parts: [
          partOf("floret", "broccoli"),
          partOf("stem", "broccoli"),
          partOf("leaf", "broccoli"),
          partOf("trim", "broccoli", "inedible"),
          partOf("peeled stem", "broccoli"),
          partOf("stem peel", "broccoli", "inedible"),
        ],
        steps: [stepOf("peel the stems", ["stem"], { "peeled stem": "0.78", "stem peel": "0.22" })],
        dishes: [
          dishOf("florets", 20, [lineOf(120, ["floret"])]),
          dishOf("stem soup", 8, [lineOf(80, ["stem", "peeled stem"])]),
        ],
      });
      expect(best(broccoli)).toBe("560");
      // Where the soup must have them peeled: 640 / 0.78 = 820.5 g of stem, so nine heads: 9 x 305 - 2,400 = 345,
      // 900 - 820.513 = 79.487 and 9 x 45 = 405 over.
      const peeled = [...broccoli.dishes.slice(0, 1), dishOf("soup", 8, [lineOf(80, ["peeled stem"])])];
      expect(Number(best({ ...broccoli, dishes: peeled }))).toBeCloseTo(345 + 900 - 640 / 0.78 + 405, 6);
    });

    it("takes a by-product that is used as reason enough", () => {
      // A zub worked: 50 % cream for what it is done for first, 30 % whey, 20 % lost. 300 g of whey need all 1,000 g,
      // so that its loss of 200 is needed; nobody has the cream: 500 over.
      const step = stepOf("churn", ["zub flesh"], { "zub cream": "0.5", "zub whey": "0.3" });
      const parts = [partOf("zub cream", "zub"), partOf("zub whey", "zub")];
      const cut = [breakdownOf("whole", 1000, { "zub flesh": 1000 })];
      const drinks = [dishOf("drink", 3, [lineOf(100, ["zub whey"])])];
      expect(best(zub(cut, drinks, { parts, steps: [step] }))).toBe("500");
      // 270 g of it need 900: then of 1,000, 100 are over as flesh, and 450 of cream.
      const fewer = [dishOf("drink", 3, [lineOf(90, ["zub whey"])])];
      expect(best(zub(cut, fewer, { parts, steps: [step] }))).toBe("550");
    });

    it("counts what one step takes off beyond another for the same thing", () => {
      // 120 g of green, x of them by hand at 90 %, at most 50, and y by machine at 80 %, for 100 g: y = 125 - 1.125 x.
      // Over are 120 - x - y, and 0.1 y is lost that hands would not have lost: 7.5 + 0.0125 x, with x at least 40 as
      // there is no more than 120. With x = 40: 36 + 64 = 100, nothing over, and 8 lost.
      const steps: Step[] = [
        stepOf("by hand", ["leek green"], { "peeled green": "0.9" }, { capacity: g(50) }),
        stepOf("by machine", ["leek green"], { "peeled green": "0.8" }),
      ];
      const base = leekScenario(
        [dishOf("tart", 2, [lineOf(100, ["leek white"])]), dishOf("pie", 2, [lineOf(50, ["peeled green"])])],
        { steps },
      );
      const leek = { ...base, parts: [...base.parts, partOf("peeled green", "leek")] };
      expect(best(leek)).toBe("8");
      // By machine only 125 are needed, of three leeks: 100 of white and 180 - 125 of green over, nothing to lose less.
      expect(best({ ...leek, steps: steps.slice(1) })).toBe("155");
    });
  });

  describe("avoidable peel", () => {
    const thick = breakdownOf("thick", 1000, { "zub flesh": 700, "zub rind": 300 });
    const thin = breakdownOf("thin", 1000, { "zub flesh": 800, "zub rind": 200 });
    const candied = (portions: number | [number, number], stated: Partial<Scenario> = {}) =>
      zub(
        [thick, thin],
        [
          dishOf("fruit plate", 7, [lineOf([100, 107], ["zub flesh"])]),
          dishOf("sweets", portions, [lineOf(10, ["zub candied rind"])]),
        ],
        {
          parts: [partOf("zub rind", "zub", "inedible"), partOf("zub candied rind", "zub")],
          steps: [stepOf("candy", ["zub rind"], { "zub candied rind": "1" })],
          ...stated,
        },
      );

    it("is what is thrown, where less is thrown than is beyond the thriftiest cut", () => {
      // Thick: 700 of flesh eaten and 300 of rind candied, 100 of them beyond the thin cut's and none thrown.
      // Thin: 800 - 7 x 107 = 51 of flesh over.
      expect(best(candied([20, 30]))).toBe("0");
      // 250 g candied: only the thick cut has as much; 50 of its 300 are thrown.
      expect(best(candied(25))).toBe("50");
      expect(best(candied(25, { wasteCounts: countsOf(50, 0, 0) }))).toBe("25");
      expect(best(candied(25, { wasteCounts: COUNTS_NO_PEEL }))).toBe("0");
      // 200 g: thick throws 100, as much as is beyond; thin has 51 over.
      expect(best(candied(20))).toBe("51");
      // 10 g: thick throws 290, of which 100 are beyond; thin has 51 over.
      expect(best(candied(1))).toBe("51");
    });

    it("leaves bones out", () => {
      // Boned two ways: 700 meat and 300 bone, or 600, 350 and 50 peel. 300 g of meat are 400 over, or 300 over with
      // 50 g of peel that the first way does not have.
      const ways = [
        breakdownOf("neat", 1000, { "zub flesh": 700, "zub bone": 300 }),
        breakdownOf("rough", 1000, { "zub flesh": 600, "zub bone": 350, "zub peel": 50 }),
      ];
      const parts = [
        partOf("zub bone", "zub", "inedible", { isPeel: false }),
        partOf("zub peel", "zub", "inedible"),
      ];
      const plate = [dishOf("plate", 3, [lineOf(100, ["zub flesh"])])];
      expect(best(zub(ways, plate, { parts }))).toBe("350");
      const peels = parts.map((part) => ({ ...part, isPeel: true }));
      // Were bones peel, the rough way would have 100 beyond: 300 + 100 = 400, as the neat one.
      expect(best(zub(ways, plate, { parts: peels }))).toBe("400");
    });
  });

  it("counts what is thrown though steps could make food of it, as far as the scenario does", () => {
    // Two leeks: 120 g of green over, 80 g of root, which washed would make a stock.
    const steps = [
      stepOf("wash", ["leek root"], { "washed root": "1" }),
      stepOf("pot", ["washed root"], { stock: "1", solids: "1" }, { water: new Decimal(1) }),
    ];
    const base = leekScenario([dishOf("tart", 2, [lineOf(100, ["leek white"])])], { steps });
    const parts = [
      ...base.parts,
      partOf("washed root", "leek", "inedible"),
      partOf("stock", null),
      partOf("solids", null, "inedible"),
    ];
    const counted = (unused: number, soup: Dish[] = []) =>
      best({
        ...base,
        parts,
        dishes: [...base.dishes, ...soup],
        wasteCounts: countsOf(100, unused, 0),
      });
    expect(counted(0)).toBe("120");
    expect(counted(50)).toBe("160");
    expect(counted(100)).toBe("200");
    // A soup of 30 g of stock takes 30 g of root, and of its solids nothing can be made: 120 + 50.
    expect(counted(100, [dishOf("soup", 1, [lineOf(30, ["stock"])])])).toBe("170");
  });

  it("counts what is given away, as far as the scenario does, and then rather cuts otherwise", () => {
    const gift = { destinations: withGift(50, { food: true, portions: false }) };
    const given = (counts: number) =>
      best(
        leekScenario([dishOf("tart", 2, [lineOf(100, ["leek white"])])], {
          ...gift,
          wasteCounts: countsOf(100, 0, counts),
        }),
      );
    // 120 g of green, 50 of it given: 70 + 50 x g.
    expect(given(0)).toBe("70");
    expect(given(40)).toBe("90");
    expect(given(100)).toBe("120");
  });

  describe("spare portions", () => {
    const all = breakdownOf("all of it", 1750, { "zub flesh": 1750 });

    it("weigh what goes into them", () => {
      // Ten bakes of a batch, five over: of B g baked, B / 2 are wasted; salad takes at most 750. B = 1,000 with the
      // salad full: 500. B = 1,250 with the least salad: 625.
      const scenario = scenarioOf({
        services: [serviceOf("lunch", 0, { overage: new Decimal(1) })],
        items: [itemOf("zub", 1750, "2.00", 2, [all])],
        parts: [partOf("zub flesh", "zub")],
        dishes: [
          dishOf("bake", 5, [lineOf([100, 200], ["zub flesh"])], {
            batch: { portions: 10, halves: false, vessel: "tray" },
          }),
          dishOf("salad", 5, [lineOf([100, 150], ["zub flesh"])]),
        ],
      });
      expect(best(scenario)).toBe("500");
      // At 80 % of the raw, stated cooked: ten bakes of 80 to 160 g are 1,000 to 2,000 raw, half of 800 over.
      const [bake, salad] = scenario.dishes as [Dish, Dish];
      const cooked = lineOf([80, 160], ["zub flesh"], { stated: "cooked", cookingYield: new Decimal("0.8") });
      expect(best({ ...scenario, dishes: [{ ...bake, lines: [cooked] }, salad] })).toBe("400");
    });

    it("fill a destination by what they really weigh", () => {
      // Ten stews of 1,000 g as counted, white once and green twice; eight eaten; a staff meal of 100 g.
      // White only: 100 g each, one given and one wasted: 100. Half green, all of its 500 g used: 50 g each, both
      // given, and 500 of white over; 500 white and 250 green: 75 each, one given and one wasted, 250 green over.
      const ways = [
        breakdownOf("white only", 1000, { "zub flesh": 1000 }),
        breakdownOf("both", 1000, { "zub flesh": 500, "zub green": 500 }),
      ];
      const stew = dishOf(
        "stew",
        8,
        [lineOf(100, ["zub flesh", { part: "zub green", rate: new Decimal(2) }])],
        { batch: { portions: 10, halves: false, vessel: "pot" } },
      );
      const limited = (limit: number | null, cuts: Breakdown[]) =>
        best(
          zub(cuts, [stew], {
            services: [serviceOf("lunch", 0, { overage: new Decimal("0.25") })],
            parts: [partOf("zub green", "zub")],
            destinations: withGift(limit, { food: false, portions: true }),
          }),
        );
      expect(limited(100, ways)).toBe("100");
      expect(limited(200, ways)).toBe("0");
      expect(limited(99, ways)).toBe("200");
      expect(limited(100, ways.slice(1))).toBe("325");
    });
  });

  it("fills a destination by what was there before working", () => {
    // Two leeks: 120 g of green, all of it split for 48 g of core, which leaves 48 g of fringe and 24 lost. A gram of
    // fringe stands for 1 / 0.8 g: of 50 g, 40 of fringe may be given.
    const base = leekScenario(
      [dishOf("tart", 2, [lineOf(100, ["leek white"])]), dishOf("soup", 2, [lineOf(24, ["core"])])],
      {
        steps: [stepOf("split", ["leek green"], { core: "0.4", fringe: "0.4" })],
        destinations: withGift(50, { food: true, portions: false }),
      },
    );
    expect(best({ ...base, parts: [...base.parts, partOf("core", "leek"), partOf("fringe", "leek")] })).toBe(
      "8",
    );
  });

  describe("what outlasts the plan", () => {
    const way = breakdownOf("way", 1000, { "zub flesh": 900 });
    const plates = [dishOf("plate", 30, [lineOf(60, ["zub flesh"])])];
    const held = (lastDay: number | null, limits: Partial<Scenario["limits"]> = {}) =>
      zub(
        [way],
        plates,
        { limits: { chilled: null, handsMinutes: null, vessels: [], ...limits } },
        {
          onHand: [{ units: new Decimal(10), weight: g(10_000), value: money("10"), lastDay }],
          buying: null,
        },
      );

    it("closes as stock without limit, and is binned only where it does not outlast the plan", () => {
      // 30 x 60 = 1,800 are two of ten.
      expect(best(held(null))).toBe("0");
      expect(best(held(1))).toBe("0");
      // Not good after lunch: eight binned at 900 g of flesh.
      expect(best(held(0))).toBe("7200");
    });

    it("stays in the cold room after the last service, or is binned where that is short", () => {
      expect(best(held(null, { chilled: g(8000) }))).toBe("0");
      expect(best(held(null, { chilled: g(7999) }))).toBe("900");
    });

    it("leaves the freezer its own room", () => {
      // Two leeks for Friday's tart; their 120 g of green are frozen for Saturday's pie of 100: what waits is frozen.
      const days = [serviceOf("Friday", 0), serviceOf("Saturday", 1)];
      const kept = (limits: Partial<Scenario["limits"]>) => {
        const base = leekScenario(
          [
            dishOf("tart", 2, [lineOf(100, ["leek white"])]),
            dishOf("pie", 2, [lineOf(50, ["frozen green"])], { services: [1] }),
          ],
          {
            services: days,
            steps: [stepOf("freeze", ["leek green"], { "frozen green": "1" })],
            limits: { chilled: g(0), handsMinutes: null, vessels: [], ...limits },
          },
        );
        const frozen = partOf("frozen green", "leek", "food", { state: "frozen" });
        return best({ ...base, parts: [...base.parts.map((part) => ({ ...part, keepsDays: 1 })), frozen] });
      };
      expect(kept({})).toBe("20");
      expect(kept({ frozen: g(100) })).toBe("20");
      // With less room another leek or two are cut on Saturday, and whole leeks would have to wait in the cold.
      expect(kept({ frozen: g(90) })).toBe("no plan");
    });

    it("goes where it is stated to go, though it keeps", () => {
      const stated = held(null);
      const [item] = stated.items as [Item];
      const onHand = item.onHand.map((entry) => ({ ...entry, destination: "refuse" }));
      expect(best({ ...stated, items: [{ ...item, onHand }] })).toBe("7200");
    });

    it("is not credited in cost but for its named use", () => {
      const cost = held(null);
      expect(best({ ...cost, aim: "cost" })).toBe("0");
      const [item] = cost.items as [Item];
      const keep = { use: "soup", limit: g(3000), valuePerKilogram: money("0.50") };
      // Three of the eight left are kept, 3 kg at 0.50.
      expect(best({ ...cost, aim: "cost", items: [{ ...item, carry: keep }] })).toBe("-1.5");
      expect(best({ ...cost, items: [{ ...item, carry: keep }] })).toBe("0");
    });

    it("is parts on hand as they came, and nothing that was cut or worked", () => {
      const tart = [dishOf("tart", 1, [lineOf(100, ["leek white"])])];
      const white = { part: "leek white", weight: g(80), value: money("0"), useBy: null, lastDay: null };
      // One leek for the tart: its green over, and the 80 g of white that keep are left to keep.
      expect(best(leekScenario(tart, { partsOnHand: [white] }))).toBe("60");
      // Stated to go to the bin where they are not used: 180 g of white for 100.
      expect(best(leekScenario(tart, { partsOnHand: [{ ...white, destination: "refuse" }] }))).toBe("140");
      // Cooked off, they are no stock: a soup of 40 g takes half of them at 100 %, and the rest stays as it came.
      const soup = leekScenario([...tart, dishOf("soup", 1, [lineOf(40, ["boiled white"])])], {
        steps: [stepOf("boil", ["leek white"], { "boiled white": "1" })],
        partsOnHand: [white],
      });
      expect(best({ ...soup, parts: [...soup.parts, partOf("boiled white", "leek")] })).toBe("60");
    });
  });

  it("costs by trim credit, so that what is used of the trim makes the rest cheaper", () => {
    // A leek at 1.00: the tart bears 1.00, less 60 g of green at 2.00 a kg where a pie uses it: 0.88.
    const credited = (ceiling: string, pie: Dish[]) => {
      const tart = dishOf("tart", 1, [lineOf(100, ["leek white"])], { ceiling: money(ceiling) });
      const base = leekScenario([tart, ...pie], { costing: "trim credit" });
      const parts = base.parts.map((part) =>
        part.name === "leek green" ? { ...part, marketValue: money("2.00") } : part,
      );
      return best({ ...base, parts });
    };
    const pie = [dishOf("pie", [0, 1], [lineOf(60, ["leek green"])])];
    expect(credited("0.88", pie)).toBe("0");
    expect(credited("0.87", pie)).toBe("no plan");
    expect(credited("1.00", [])).toBe("60");
    expect(credited("0.99", [])).toBe("no plan");
  });

  it("costs by sales value, by what each part is worth", () => {
    // 100 g of white at 3.00 and 60 g of green at 5.00 a kg are worth 0.30 each: the tart bears half of 1.00.
    const sold = (ceiling: string) => {
      const tart = dishOf("tart", 1, [lineOf(100, ["leek white"])], { ceiling: money(ceiling) });
      const base = leekScenario([tart], { costing: "sales value" });
      const worth: Record<string, string> = { "leek white": "3.00", "leek green": "5.00" };
      const parts = base.parts.map((part) => {
        const value = worth[part.name];
        return value === undefined ? part : { ...part, marketValue: money(value) };
      });
      return best({ ...base, parts });
    };
    expect(sold("0.5")).toBe("60");
    expect(sold("0.49")).toBe("no plan");
  });
});
