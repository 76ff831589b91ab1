import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { formChoiceSchema } from "../../src/contract/index.js";
import { planFormChoice } from "../../src/insight/index.js";
import type { Buying, Item, Scenario, Supplier } from "../../src/kitchen/index.js";
import { plansText } from "../../src/pages/form-choice.js";
import { writingFor } from "../../src/pages/index.js";
import { planningWith } from "../../src/planning/index.js";
import { money } from "../../src/quantity/index.js";
import { scenarioOf } from "../support/examples.js";

const FILE = fileURLToPath(new URL("../plan/cases/two-forms-of-one-item.yaml", import.meta.url));
const engines = new Engines();
afterAll(() => engines.close());
const planning = planningWith(engines);

/** A bake of 900 g of dice: two heads of 500 g at 2.00, or three hearts of 400 g at 1.80. */
const read = scenarioOf(readFileSync(FILE, "utf8"));
const bake: Scenario = { ...read, aim: "cost", dishes: read.dishes.filter(({ name }) => name === "bake") };

const withHeart = (
  buying: Partial<Buying>,
  suppliers: readonly Omit<Supplier, "name">[] = [],
  both = false,
): Scenario => ({
  ...bake,
  suppliers: suppliers.map((terms) => ({ name: "farm", ...terms })),
  items: bake.items.map((item): Item => {
    const isHeart = item.name === "marrow heart";
    const supplier = isHeart || both ? "farm" : null;
    if (item.buying === null) return { ...item, supplier };
    return { ...item, supplier, buying: { ...item.buying, ...(isHeart ? buying : {}) } };
  }),
});

async function choiceOf(scenario: Scenario) {
  const found = await planFormChoice("marrow", ["marrow dice"], scenario, planning, { seconds: 10 });
  return formChoiceSchema.parse(found);
}

async function heartIn(scenario: Scenario) {
  const choice = await choiceOf(scenario);
  const found = choice.plans?.breakEvens.find(({ item }) => item === "marrow heart");
  const alone = choice.plans?.ways.find(({ item }) => item === "marrow heart");
  if (found === undefined || alone === undefined) throw new Error("no heart");
  const told = [found.instead, found.beside].map(({ price, verdict }) => price ?? verdict);
  return { told, alone, text: plansText(found, choice, writingFor(scenario)) };
}

const terms = (minimum: string, delivery: string) => [{ minimum: money(minimum), delivery: money(delivery) }];

describe("which form to buy, where more cost less", () => {
  it("plans each way at the prices there are, and looks for one price for any number", async () => {
    const { told, alone } = await heartIn(withHeart({ breaks: [{ from: 3, price: money("1.20") }] }));
    expect(alone.figures).toMatchObject({ netSpend: "3.60" });
    // Three hearts cost less than 4.00 up to 1.33; one beside a head, up to 1.99.
    expect(told).toEqual(["1.34", "2.00"]);
  });
});

describe("which form to buy, where a supplier has terms", () => {
  it("counts the charge of a delivery: 3 p + 0.50 is less than 4.00 up to 1.16", async () => {
    const { told, alone } = await heartIn(withHeart({}, terms("0", "0.50")));
    expect(told).toEqual(["1.17", "1.50"]);
    // 5.90 for 900 g used.
    expect(alone.figures).toMatchObject({ netSpend: "5.90", costPerUsed: "6.5556" });
  });

  it("names no price under a least order, for a plan can get cheaper as the price rises", async () => {
    const cost = async (price: string) => {
      const scenario = withHeart({ price: money(price) }, terms("4.00", "0"));
      const hearts = {
        ...scenario,
        items: scenario.items.map((item) => (item.name === "marrow" ? { ...item, buying: null } : item)),
      };
      const again = await planning.again(hearts, { seconds: 10 });
      return again.kind === "plan" ? again.objective : Number.NaN;
    };
    // Four at 1.33 are 5.32, for three are below 4.00; three at 1.34 are 4.02.
    expect(await cost("1.33")).toBeCloseTo(5.32, 9);
    expect(await cost("1.34")).toBeCloseTo(4.02, 9);
    const { told, text } = await heartIn(withHeart({}, terms("4.00", "0")));
    expect(told).toEqual(["terms", "terms"]);
    expect(text).toBe(
      "Trimmed: what its supplier asks for an order can make a plan cheaper as its price rises, so no one price tells.",
    );
  });

  it("nor where other items share the charge and a dish has a ceiling", async () => {
    const shared = withHeart({}, terms("0", "0.50"), true);
    expect((await heartIn(shared)).told).not.toContain("terms");
    const held = {
      ...shared,
      dishes: shared.dishes.map((dish) => ({ ...dish, ceiling: money("90") })),
    };
    expect((await heartIn(held)).told).toEqual(["terms", "terms"]);
  });
});
