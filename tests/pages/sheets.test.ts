import { describe, expect, it } from "vitest";
import { decodePlan } from "../../src/contract/index.js";
import { cuttingData } from "../../src/pages/cutting.js";
import { dishesData } from "../../src/pages/dishes.js";
import { glanceData } from "../../src/pages/glance.js";
import { gramsData } from "../../src/pages/grams.js";
import { noPlanData } from "../../src/pages/no-plan.js";
import { outcomeWords, roundingWords } from "../../src/pages/outcome-words.js";
import { partsData } from "../../src/pages/parts.js";
import { shoppingData } from "../../src/pages/shopping.js";
import { viewOf } from "../../src/pages/view.js";
import { wasteData } from "../../src/pages/waste.js";
import { writingFor } from "../../src/pages/writing.js";
import { Decimal, grams, money } from "../../src/quantity/index.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";

const view = viewOf(hallPlan, hallScenario);
/** The same plan for a kitchen whose scale shows 20 g, which none of its recipes keep to. */
const coarse = viewOf(hallPlan, { ...hallScenario, scaleStep: grams("20") });
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");
const number = (text: string) => new Decimal(text.replace(/[^0-9.-]/g, ""));
const sum = (texts: readonly string[]) =>
  texts.reduce((acc, text) => acc.plus(number(text)), new Decimal(0)).toFixed();
const whole = (text: string) => number(text).toFixed();

describe("plan at a glance", () => {
  it("says what to buy and how to cut it", () => {
    const lines = glanceData(view).items.map(({ item, buy, cuts }) =>
      plain(`${item}: ${buy}. ${cuts.join(". ")}`),
    );
    expect(lines).toEqual([
      "squash: 5 squash, 7,000 g. Friday dinner: 2 squash in rings, 3 squash in dice",
      "broccoli: 2 cases of 5, 6,200 g. Friday dinner: 7 heads in florets and stem. Saturday lunch: 3 heads in florets and stem",
      "rhubarb: 5 kg. Friday dinner: 5,000 g in stalks",
      "chicken: 12 birds, 19.2 kg. Friday dinner: 12 birds in joints",
    ]);
  });

  it.each([
    ["1 g", view],
    ["20 g", coarse],
  ])("adds up where the weight ends, and the figures of the picture, in steps of %s", (_, each) => {
    const { ends, endTotal } = glanceData(each);
    const { tables } = gramsData(each);
    expect(sum(ends.map(({ shown }) => shown))).toBe(whole(endTotal.shown));
    expect(sum(ends.map(({ percent }) => percent))).toBe("100");
    for (const { rows, shown, name } of tables)
      if (!/^(squash soup|roast chicken)/i.test(name))
        expect(sum(rows.map((row) => row.shown))).toBe(whole(shown));
  });

  it("shows every dish by service with its cost against its ceiling, and the spare", () => {
    const { services, spareColumn, ceilingColumn } = glanceData(view);
    expect(services.map(({ service, covers }) => `${service}, ${plain(covers)}`)).toEqual([
      "Friday dinner, 60 covers",
      "Saturday lunch, 40 covers",
      "Saturday dinner, 36 covers",
    ]);
    expect([spareColumn, ceilingColumn]).toEqual([["Spare"], ["Ceiling"]]);
    const soup = services[1]?.dishes.find(({ dish }) => dish === "Squash soup");
    expect(soup).toEqual({
      dish: "Squash soup",
      note: "",
      portions: "21",
      spare: ["1"],
      cost: "£0.48",
      ceiling: ["£0.95"],
    });
  });

  it("shows portions kept for a later service there, and drops columns that would be empty", () => {
    const dishes = hallPlan.dishes.map((dish) => ({
      ...dish,
      spare: 0,
      ceiling: null,
      served:
        dish.dish === "Squash soup"
          ? [
              { service: "Saturday lunch", portions: 15 },
              { service: "Saturday dinner", portions: 6 },
            ]
          : dish.served,
    }));
    const { services, spareColumn, ceilingColumn } = glanceData(
      viewOf({ ...hallPlan, dishes }, hallScenario),
    );
    expect([spareColumn, ceilingColumn]).toEqual([[], []]);
    expect(services[2]?.dishes.map(({ dish, note }) => `${dish}: ${plain(note)}`)).toContain(
      "Squash soup: 6 portions kept from Saturday lunch",
    );
  });
});

describe("cautions at a glance", () => {
  const texts = (warnings: typeof hallPlan.warnings) =>
    glanceData(viewOf({ ...hallPlan, warnings }, hallScenario)).warnings;
  const warning = { code: "x", text: "Mind this.", source: "A code", part: null, dish: null };

  it("are all that concern this plan, each with its authority once", () => {
    expect(texts(hallPlan.warnings).map(({ source }) => source)).toEqual([
      "MedlinePlus",
      "FDA Food Code 2022, 3-501.17",
    ]);
    expect(texts([warning])).toEqual([{ text: "Mind this.", source: "A code" }]);
    expect(texts([{ ...warning, text: "Mind this, says A code." }])).toEqual([
      { text: "Mind this, says A code.", source: "" },
    ]);
  });

  it("leave out parts that nothing gives and dishes that are not cooked", () => {
    expect(
      texts([
        { ...warning, part: "rhubarb flower" },
        { ...warning, dish: "Trifle" },
      ]),
    ).toEqual([]);
    expect(texts([{ ...warning, part: "broccoli leaf" }])).toHaveLength(1);
  });
});

describe("how good the plan is", () => {
  const words = (
    changes: Partial<typeof hallPlan.outcome>,
    aim: typeof hallPlan.aim = "waste",
    risk: typeof hallPlan.risk = null,
  ) =>
    plain(
      outcomeWords(
        decodePlan({ ...hallPlan, aim, risk, outcome: { ...hallPlan.outcome, ...changes } }),
        writingFor(hallScenario),
      ).headline,
    );

  it("is proved, or so far from the best possible, never rounded in its favour", () => {
    expect(words({})).toBe("Proved least waste: 251 g");
    expect(words({}, "cost")).toBe("Proved least cost");
    const found = { kind: "feasible", seconds: 10, stoppedBy: "timeLimit", stopCode: "time" } as const;
    expect(words({ ...found, beforeRounding: "103", bound: "100" })).toBe(
      "Best found in 10 s: up to 3% more waste than the best possible",
    );
    expect(words({ ...found, beforeRounding: "103", bound: "100" }, "waste", hallPlan.risk)).toBe(
      "Sure first, then least waste: up to 3% more waste than the best possible",
    );
    expect(words({ ...found, beforeRounding: "100.01", bound: "100" }, "cost")).toBe(
      "Best found in 10 s: up to 0.1% dearer than the best possible",
    );
    expect(words({ ...found, beforeRounding: "240", bound: "0" })).toBe(
      "Best found in 10 s: up to 240 g more waste than the best possible",
    );
    expect(words({ ...found, beforeRounding: "240", bound: null })).toBe(
      "Best found in 10 s: how good is not known",
    );
  });

  it("is said with its bound and solver in small print", () => {
    const { small } = outcomeWords(decodePlan(hallPlan), writingFor(hallScenario));
    expect(plain(small)).toBe(
      "Waste counted: 251 g; before rounding no plan can have less than 251 g, says the solver highs. Solved in 0.21 s. Every count, weight and cost was checked again without the solver. Then cost: proved. Then freshest: proved.",
    );
  });

  it.each([
    ["waste", "1.4", "of it 1 g added by rounding"],
    ["waste", "0.3", "of it under 1 g added by rounding"],
    ["waste", "-2.6", "3 g taken off by rounding"],
    ["waste", "0.0004", ""],
    ["cost", "0.0418", "of it £0.04 added by rounding"],
    ["balanced", "-0.002", "under £0.01 taken off by rounding"],
    ["cost", null, ""],
  ] as const)("says what rounding did to the %s: %s is %j", (aim, rounding, said) => {
    const writing = writingFor(hallScenario);
    const plan = decodePlan({ ...hallPlan, aim, outcome: { ...hallPlan.outcome, rounding } });
    expect(plain(roundingWords(plan, writing))).toBe(said);
    expect(plain(outcomeWords(plan, writing).small)).toContain(`${said}; before rounding no plan`);
  });
});

describe("shopping list", () => {
  const shopping = shoppingData(view);

  it("is by supplier and delivery, and its columns add up", () => {
    expect(shopping.deliveries.map(({ supplier, day }) => `${supplier}, ${day}`)).toEqual([
      "Field & Sons, Friday, 2 October 2026",
      "Hill Farm, Friday, 2 October 2026",
    ]);
    for (const { lines, weight, cost } of shopping.deliveries) {
      expect(sum(lines.map((line) => line.weight))).toBe(whole(weight));
      expect(sum(lines.map((line) => line.cost))).toBe(whole(cost));
    }
    expect(sum(shopping.deliveries.map(({ cost }) => cost))).toBe(whole(shopping.spent));
  });

  it("says how many, at what price, by when, what to refuse and how cold", () => {
    const chicken = shopping.deliveries[1]?.lines[0];
    expect(chicken && { ...chicken, order: plain(chicken.order) }).toEqual({
      item: "chicken",
      form: "whole, no giblets",
      order: "12 birds",
      price: "£6.40 a bird",
      weight: "19,200",
      tax: ["£3.84"],
      cost: "£76.80",
      orderBy: "Wednesday noon",
      rejectIf: "above 5 °C",
      substitute: "",
      temperature: "Temperature on arrival",
    });
    expect(shopping.deliveries[0]?.lines[0]?.temperature).toBe("");
  });

  it("finds the tax within prices that carry it", () => {
    const taxed = shoppingData(viewOf(hallPlan, { ...hallScenario, pricesIncludeTax: true }));
    // 76.80 x 5 / 105 = 3.657...
    expect(taxed.deliveries[1]?.tax).toEqual(["£3.66"]);
  });

  it("lists what the house holds and the staples by what the dishes need", () => {
    expect(shopping.onHand.map((each) => ({ ...each, amount: plain(each.amount) }))).toEqual([
      { name: "broccoli leaf", amount: "200 g", useBy: "Sat\u00a03\u00a0Oct" },
    ]);
    expect(shopping.staples.map(({ name, amount, dishes }) => plain(`${name} ${amount}: ${dishes}`))).toEqual(
      [
        "crumble mix 2,100 g: Rhubarb crumble",
        "single cream 420 g: Squash soup",
        "mayonnaise 300 g: Stem slaw",
        "egg 24 each: Leaf frittata",
      ],
    );
  });
});

describe("cutting sheet", () => {
  const { services } = cuttingData(view);

  it("puts plants before poultry, with a change of board", () => {
    expect(services.map(({ service, boards }) => [service, boards.map(({ handling }) => handling)])).toEqual([
      ["Friday dinner", ["plant", "poultry"]],
      ["Saturday lunch", ["plant"]],
      ["Saturday dinner", ["poultry"]],
    ]);
    expect(services[0]?.boards[1]?.caution).toContain("Change board and knife");
  });

  it.each([
    ["1 g", view],
    ["20 g", coarse],
  ])("gives weights that add up to what is cut, in steps of %s", (_, each) => {
    for (const { boards } of cuttingData(each).services)
      for (const job of boards.flatMap(({ jobs }) => jobs))
        expect(sum([...job.parts.map(({ shown }) => shown), job.loss])).toBe(whole(job.total));
  });

  it("says what to cut, how, into which container and for which dish", () => {
    const rings = services[0]?.boards[0]?.jobs[0];
    expect(rings?.title).toBe("Cut 2\u00a0squash in rings");
    expect(rings?.steps).toEqual([
      "Wash in cold running water and scrub.",
      "Peel, cut across in 20 mm rings, dice the ends 20 mm.",
    ]);
    expect(rings?.parts[0]).toMatchObject({
      part: "squash ring",
      shown: "960",
      container: "Label 1, 1/1 tray",
    });
    expect(rings?.parts[0]?.uses.map(plain)).toEqual([
      "Squash rings with herbs, Friday dinner: 960 g, 8 pieces",
    ]);
  });

  it("says where a lot goes once, with the last job that adds to it", () => {
    const [rings, dice] = services[0]?.boards[0]?.jobs ?? [];
    expect(rings?.parts[1]?.uses).toEqual(["more of it below"]);
    expect(dice?.parts[0]?.uses.map(plain)).toEqual([
      "4,240 g of it in all:",
      "Squash soup, Saturday lunch: 4,200 g",
      "compost: 40 g",
    ]);
    expect(dice?.parts[0]?.container).toBe(rings?.parts[1]?.container);
  });

  it("keeps lots of different days apart", () => {
    const floret = (index: number) =>
      services[index]?.boards[0]?.jobs
        .flatMap(({ parts }) => parts)
        .find(({ part }) => part === "broccoli floret");
    expect(floret(0)?.uses.map(plain)).toEqual([
      "Broccoli with lemon, Friday dinner: 2,000 g",
      "Floret gratin, Saturday dinner: 170 g",
    ]);
    expect(floret(1)?.uses.map(plain)).toEqual(["Floret gratin, Saturday dinner: 930 g"]);
    expect(floret(0)?.container).not.toBe(floret(1)?.container);
  });

  it("marks what must never be used, and cautions beside it", () => {
    const parts = services[0]?.boards.flatMap(({ jobs }) => jobs.flatMap((job) => job.parts)) ?? [];
    expect(parts.filter(({ never }) => never !== "").map(({ part }) => part)).toEqual(["rhubarb leaf"]);
    expect(services[0]?.warnings.map(({ text }) => text)).toEqual([
      expect.stringContaining("Rhubarb leaves hold oxalates"),
    ]);
    expect(services[1]?.warnings).toEqual([]);
  });
});

describe("where each part goes", () => {
  it.each([
    ["1 g", view],
    ["20 g", coarse],
  ])("adds up both ways to the same total, in steps of %s", (_, each) => {
    const { byPart, byDish, partTotal, dishTotal } = partsData(each);
    for (const { rows, shown } of [...byPart, ...byDish])
      expect(sum(rows.map((row) => row.shown))).toBe(whole(shown));
    expect(sum(byDish.map(({ shown }) => shown))).toBe(whole(dishTotal.shown));
    const dishRows = byPart.flatMap(({ rows }) => rows.filter(({ about }) => about !== ""));
    expect(sum(dishRows.map(({ shown }) => shown))).toBe(whole(partTotal.shown));
  });
});

describe("dish sheets", () => {
  const { sheets, holding } = dishesData(view);
  const sheet = (dish: string) => sheets.find((each) => each.dish === dish);

  it("are one a cooking", () => {
    expect(sheets.map(({ dish }) => dish)).toEqual(hallPlan.dishes.map(({ dish }) => dish));
  });

  it("give portions, batches, raw weights and the cooked yield", () => {
    const roast = sheet("Roast chicken breast");
    expect(roast?.batches && plain(roast.batches)).toBe("2 × 1/1 tray, 15 portions each");
    expect(roast?.batchColumn).toEqual(["One 1/1 tray"]);
    expect(roast?.portionWeight && plain(roast.portionWeight)).toBe("120 g");
    expect(roast?.lines[0]?.sources[0]).toMatchObject({
      part: "chicken breast",
      batch: ["2,400"],
      all: "4,800",
    });
    expect(roast?.lines[0]?.cooked && plain(roast.lines[0].cooked)).toBe(
      "4,800 g raw gives 3,600 g cooked, 75%",
    );
    expect(roast?.card.map(({ name, value }) => `${name}: ${value}`)).toEqual([
      "Equipment: oven 200 °C",
      "Time: 25 min",
      "Core temperature: 74 °C",
    ]);
    expect([roast?.cost, roast?.ceiling, roast?.costInAll]).toEqual(["£1.63", "£2.60", "£48.90"]);
  });

  it("count staples in grams into the portion, and name the batch column after its vessel", () => {
    const crumble = sheet("Rhubarb crumble");
    expect(crumble?.portionWeight && plain(crumble.portionWeight)).toBe("160 g");
    expect(crumble?.staples).toEqual([
      { name: "crumble mix (wheat and milk)", batch: ["420"], all: "2,100" },
    ]);
  });

  it("have no batch column where there is one batch or none", () => {
    expect(sheet("Squash soup")?.batchColumn).toEqual([]);
    expect(sheet("Crisp wings")?.batchColumn).toEqual([]);
  });

  it("name the allergens of the dish, its staples and its parts", () => {
    expect(sheet("Squash soup")?.allergens).toBe("Milk and celery");
    expect(sheet("Stem slaw")?.allergens).toBe("Egg and mustard");
    expect(sheet("Broccoli with lemon")).toMatchObject({ allergens: "", diets: "vegan" });
  });

  it("say who gets the spare, and which lots to use first", () => {
    expect(sheet("Squash soup")?.served && plain(sheet("Squash soup")?.served ?? "")).toBe(
      "1 portion spare, to staff meal",
    );
    const leaves = sheet("Leaf frittata")?.lines[0]?.sources.map(({ about }) => plain(about));
    expect(leaves).toEqual([
      "50 g raw a portion; in the house, use by Sat 3 Oct",
      "label 5, use by Sun 4 Oct",
    ]);
  });

  it("carry the cautions of their parts and the limits of holding", () => {
    expect(sheet("Chicken leg pie")?.warnings).toHaveLength(1);
    expect(sheet("Stem slaw")?.warnings).toEqual([]);
    // FDA Food Code 2022, 3-501.16 and 3-501.14: 57 C hot, 5 C cold, to 21 C in 2 h and to 5 C in 6 h.
    for (const figure of ["57 C", "5 C", "21 C", "within 2 h", "within 6 h", "3-501.14", "3-501.16"])
      expect(holding).toContain(figure);
  });
});

describe("yield and waste by weight", () => {
  it.each([
    ["1 g", view],
    ["20 g", coarse],
  ])("adds up in every table and prints both identities, in steps of %s", (_, each) => {
    const waste = wasteData(each);
    for (const { rows, sum: all } of waste.items) {
      expect(sum(rows.map((row) => row.shown))).toBe(whole(all.shown));
      expect(sum(rows.map(({ percent }) => percent))).toBe("100");
    }
    expect(waste.balances.map(({ caption, sides }) => [caption, sides.length])).toEqual([
      ["Weight balances", 2],
      ["Money balances", 2],
    ]);
    for (const { sides } of waste.balances) {
      const totals = sides.map(({ total }) => total.figures.join());
      expect(new Set(totals).size).toBe(1);
      for (const { terms, total } of sides)
        expect(sum(terms.flatMap(({ figures }) => figures))).toBe(whole(total.figures.join()));
    }
    expect(sum(waste.destinations.map(({ shown }) => shown))).toBe(whole(waste.destinationTotal.shown));
  });

  it("says what a cook may call waste, and what of it counts", () => {
    expect(wasteData(view).wasteFigures).toEqual([
      { name: "Wasted food", note: "", shown: "51", total: "" },
      { name: "Avoidable peel", note: "", shown: "200", total: "" },
      { name: "Given away", note: "not counted", shown: "520", total: "" },
      { name: "Counted by the aim", note: "wasted food and avoidable peel", shown: "251", total: "yes" },
    ]);
  });

  it("charges a destination what the plan's transfers carry there", () => {
    const transfers = hallPlan.transfers.map((transfer) =>
      transfer.to === "wastedFood:compost" ? { ...transfer, money: "0.0333" } : transfer,
    );
    const { destinations, destinationTotal } = wasteData(viewOf({ ...hallPlan, transfers }, hallScenario));
    const count = transfers.filter(({ to }) => to === "wastedFood:compost").length;
    expect(destinations.find(({ what }) => what === "wasted food")?.cost).toBe(
      writingFor(hallScenario).money(money(new Decimal("0.0333").times(count))),
    );
    expect(sum(destinations.map(({ cost }) => cost))).toBe(whole(destinationTotal.cost));
  });
});

describe("no plan", () => {
  const why = (outcome: Partial<typeof hallPlan.outcome>) =>
    noPlanData(viewOf({ ...hallPlan, outcome: { ...hallPlan.outcome, ...outcome } }, hallScenario));

  it("is said to be impossible only where that is proved", () => {
    expect(why({ kind: "infeasible" }).headline).toBe("This can't be done as it stands");
    const late = why({ kind: "failed", stoppedBy: "the deadline passed", stopCode: "time" });
    expect([late.headline, late.what]).toEqual([
      "No plan was found",
      "That is not a proof that there is none: the deadline passed.",
    ]);
  });

  it("gives each change and how it was checked", () => {
    const reasons = [{ change: "ceiling", text: "Raise the ceiling to 0.88.", checked: "planned again" }];
    const view = viewOf(
      { ...hallPlan, outcome: { ...hallPlan.outcome, kind: "infeasible" }, reasons },
      hallScenario,
    );
    expect(noPlanData(view).reasons).toEqual([
      { text: "Raise the ceiling to 0.88.", checked: "Planned again" },
    ]);
  });
});
