import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Decimal, unitNamed } from "../../src/quantity/index.js";
import { readCsv } from "../../src/reading/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { problemsOf, resolved } from "../support/resolving.js";

const { tables } = loadYieldTables();

/** What a row of the table says it was read from: the food's number, and the grams of one US measure. */
const READ = /^USDA SR28 (\d{5}): ([\d.]+) g a (cup|tbsp|tsp)(?:, (.+))?$/;

const cited = tables.densities.flatMap(({ food, gramsPerMillilitre, source }) => {
  const [, number = "", grams = "", measure = "", how = ""] = READ.exec(source) ?? [];
  return number === "" ? [] : [{ food, gramsPerMillilitre, number, grams: new Decimal(grams), measure, how }];
});

const folder = process.env.PUBLISHED_FIGURES;

if (folder === undefined)
  console.log("PUBLISHED_FIGURES is not set: only the household weights typed into the test are compared");

interface HouseholdWeight {
  readonly number: string;
  readonly measure: string;
  readonly grams: string;
}

/** Read in USDA SR28, table of household weights. */
const TYPED: readonly HouseholdWeight[] = [
  { number: "04053", measure: "cup", grams: "216" },
  { number: "19335", measure: "cup", grams: "200" },
  { number: "19296", measure: "cup", grams: "339" },
  { number: "20081", measure: "cup", grams: "125" },
  { number: "01053", measure: "cup, fluid (yields 2 cups whipped)", grams: "238" },
  { number: "02010", measure: "tbsp", grams: "7.8" },
];

/** The household weights of one unit in USDA SR28, as a CSV file of the folder holds them. */
function householdWeights(from: string): HouseholdWeight[] {
  const file = join(from, "usda-sr-weights.csv");
  if (!existsSync(file))
    throw new Error(`PUBLISHED_FIGURES names ${from}, which holds no usda-sr-weights.csv`);
  const columns = [
    "ndb_no",
    "food_group",
    "long_desc",
    "seq",
    "amount",
    "measure",
    "gram_weight",
    "n_data_points",
    "std_dev",
    "refuse_pct",
  ];
  const { rows, problems } = readCsv(
    { file, text: readFileSync(file, "utf8") },
    { required: columns, optional: [] },
  );
  expect(problems).toEqual([]);
  return rows
    .filter((row) => row.cell("amount").text === "1")
    .map((row) => ({
      number: row.cell("ndb_no").text,
      measure: row.cell("measure").text,
      grams: row.cell("gram_weight").text,
    }));
}

describe("the densities that come with the package", () => {
  it("are many, and nearly all read in a source that gives the grams of a US cup or spoon", () => {
    expect(tables.densities.length).toBeGreaterThanOrEqual(150);
    expect(cited.length).toBeGreaterThanOrEqual(150);
    const others = tables.densities.filter(({ food }) => !cited.some((each) => each.food === food));
    expect(others.map(({ food, basis }) => [food, basis])).toEqual([
      ["water", "common practice"],
      ["stock", "common practice"],
      ["wine", "common practice"],
      ["beer", "common practice"],
    ]);
  });

  it("are the grams over the millilitres of the exact US measure, to three decimals", () => {
    for (const { food, gramsPerMillilitre, grams, measure } of cited) {
      const named = unitNamed(measure, "us");
      if (named.kind !== "unit") throw new Error(measure);
      expect(gramsPerMillilitre.toFixed(3), food).toBe(grams.div(named.unit.factor).toFixed(3));
    }
  });

  // A check of kind from outside the table: oils float, syrups sink (general physics; from memory).
  it("let oils float on water and syrups sink in it", () => {
    const density = (name: string) =>
      tables.densities.find(({ food }) => food === name)?.gramsPerMillilitre ?? new Decimal(0);
    for (const { food, gramsPerMillilitre } of tables.densities)
      if (/\b(oil|lard|fat|butter|ghee)$/.test(food) && !/^(peanut|almond|cashew)/.test(food))
        expect(gramsPerMillilitre.lt(1) && gramsPerMillilitre.gt("0.85"), food).toBe(true);
    for (const food of ["honey", "golden syrup", "maple syrup", "molasses"])
      expect(density(food).gt("1.3"), food).toBe(true);
    expect(density("water").toString()).toBe("1");
  });

  it("agree with every household weight published, or with those typed in here", () => {
    const published = folder === undefined ? TYPED : householdWeights(folder);
    const numbers = new Set(published.map(({ number }) => number));
    const compared = tables.densities.flatMap(({ food, basis }) =>
      cited.filter((each) => basis === "read" && each.food === food && numbers.has(each.number)),
    );
    expect(compared.length).toBeGreaterThanOrEqual(folder === undefined ? TYPED.length : 150);
    for (const { food, number, grams, measure, how } of compared) {
      const matching = published.filter(
        (row) =>
          row.number === number &&
          row.measure.startsWith(measure) &&
          row.measure.includes(how) &&
          grams.equals(row.grams),
      );
      expect(matching, `${food}: ${number}, ${grams} g a ${measure}`).not.toEqual([]);
    }
  });

  it("say so where the folder named holds no such file", () => {
    expect(() => householdWeights("/no/such/folder")).toThrow(
      "PUBLISHED_FIGURES names /no/such/folder, which holds no usda-sr-weights.csv",
    );
  });
});

const scenario = (staple: string, units = "") => `scenario: s
currency: EUR
${units}services: [{name: Lunch, date: 2026-10-08}]
items: {marrow: {price: 1.00 each, unit_weight: 1 kg, breakdowns: {rings: {parts: {ring: 100 %}}}}}
dishes: {bake: {portions: 4, lines: [{amount: 100 g, from: marrow ring}], staples: {${staple}}}}
`;
const costOf = (staple: string, units = "") =>
  resolved(scenario(staple, units), tables).dishes[0]?.staples[0]?.costPerPortion;

describe("a staple measured by volume and bought by weight, or the reverse", () => {
  it("costs what its weight costs", () => {
    expect(costOf("olive oil: {amount: 15 mL, price: 8.00 / kg}")?.toString()).toBe("0.10956");
    expect(costOf("Olive  Oil: {amount: 15 mL, price: 8.00 / kg}")?.toString()).toBe("0.10956");
    expect(costOf("olive oil: {amount: 13.695 g, price: 7.304 / L}")?.toFixed(12)).toBe("0.109560000000");
    expect(costOf("canola oil: {amount: 10 mL, price: 6.00 / bag of 2 kg}")?.toString()).toBe("0.02763");
  });

  // 125 g of plain flour to the US cup (USDA SR28 20081): a quarter of a cup of it at 0.80 / kg is 0.025.
  // Cooks say oats for rolled oats (81 g a US cup, from memory), coriander for the leaf, masa for the dough.
  it("takes no name for another food than cooks mean by it", () => {
    expect(costOf("oats: {amount: 0.5 cup, price: 2.00 / kg}", "units: {cup: us}\n")?.toFixed(3)).toBe(
      "0.081",
    );
    for (const name of ["coriander", "masa"])
      expect(problemsOf(scenario(`${name}: {amount: 15 mL, price: 2.00 / kg}`), tables)[0]).toContain(
        `the price of \`${name}\` is for another measure than its amount`,
      );
  });

  it("takes cups and spoons in the system stated, and asks for one", () => {
    const flour = "plain flour: {amount: 0.25 cup, price: 0.80 / kg}";
    expect(costOf(flour, "units: {cup: us}\n")?.toFixed(4)).toBe("0.0250");
    expect(costOf(flour, "units: {cup: metric}\n")?.toFixed(4)).toBe("0.0264");
    expect(problemsOf(scenario(flour), tables)[0]).toMatch(
      /^t.yaml:5:\d+: `0.25 cup` does not say which measure/,
    );
  });

  it("is refused where the tables do not know the food, with what may have been meant", () => {
    expect(problemsOf(scenario("olive oyl: {amount: 15 mL, price: 8.00 / kg}"), tables)).toEqual([
      "t.yaml:5:119: the price of `olive oyl` is for another measure than its amount. Did you mean `olive oil`?",
    ]);
    expect(problemsOf(scenario("fish paste: {amount: 15 mL, price: 8.00 / kg}"), tables)).toEqual([
      "t.yaml:5:120: the price of `fish paste` is for another measure than its amount. Write the price for a volume, such as `4.00 / L`, or the amount as the price is",
    ]);
    expect(problemsOf(scenario("olive oyl: {amount: 15 mL, price: 0.20 / each}"), tables)).toEqual([
      "t.yaml:5:119: the price of `olive oyl` is for another measure than its amount. Write the price for a volume, such as `4.00 / L`, or the amount as the price is",
    ]);
  });
});
