import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { tcsOf } from "../../src/safety/tcs.js";

const engines = new Engines();
afterAll(() => engines.close());

/** Invented kitchens that try to get round a rule, as files. */
const file = (items: string, rest: string) => `scenario: a way round
currency: EUR
services: [{name: Monday, date: 2026-10-05}, {name: Tuesday, date: 2026-10-20}]
items:
${items}
${rest}`;

const problems = (text: string) => loadScenarioText("t.yaml", text).problems.map(problemText);

function loaded(text: string) {
  const { scenario, problems: found } = loadScenarioText("t.yaml", text);
  expect(found.map(problemText)).toEqual([]);
  if (scenario === null) throw new RangeError("not read");
  return scenario;
}

const POTATO = "  potato: {form: maincrop, price: 1.00 / kg}";

describe("dates", () => {
  // FDA Food Code 1-201.10: heat-treated plant food needs temperature control; what is made of it is not less so.
  it("what is made of something cooked is cooked food, through freezing and thawing", () => {
    const steps = `steps:
  boil: {from: potato peeled flesh, gives: {boiled potato: 100 %}}
  freeze it: {from: boiled potato, gives: {icy spuds: 100 %}}
  thaw it: {from: icy spuds, gives: {spud mix: 100 %}}
dishes:
  bowl: {portions: 10, lines: [{amount: 100 g, from: spud mix}]}
`;
    const parts = (more: string) =>
      `parts:\n  boiled potato: {state: cooked}\n  icy spuds: {state: frozen, keeps: 60 days, food_by: me}\n  spud mix: {keeps: 20 days, food_by: me${more}}\n`;
    const scenario = loaded(file(POTATO, parts("") + steps));
    const made = (name: string) => scenario.parts.find((part) => part.name === name);
    expect(["boiled potato", "icy spuds", "spud mix"].map((name) => made(name)?.state)).toEqual([
      "cooked",
      "frozen",
      "cooked",
    ]);
    expect(problems(file(POTATO, parts(", state: raw") + steps))).toEqual([
      "t.yaml:9:50: `spud mix` is made of `icy spuds`, which is cooked: it is cooked food, and dated as such. Leave its state out",
    ]);
  });

  it("food of animals is no plant: not where the tables hold it, nor by name where they do not", () => {
    const dish = (part: string) =>
      `dishes:\n  bowl: {portions: 10, lines: [{amount: 100 g, from: ${part}}]}\n`;
    expect(
      problems(file("  pork belly: {price: 8.00 / kg, handling: plant}", dish("pork belly belly"))),
    ).toContain(
      "t.yaml:5:44: `pork belly` is food of animals by the yield tables, and is handled and dated as such. Write `handling: meat`, or leave it out",
    );
    const own = (item: string) =>
      loaded(
        file(
          `  ${item}: {price: 8.00 / kg, keeps: 3 days, breakdowns: {cut: {parts: {dice: 100 %}}}}`,
          `parts:\n  ${item} dice: {food_by: me}\n${dish(`${item} dice`)}`,
        ),
      );
    const kind = (item: string) => {
      const { parts, items } = own(item);
      const [part] = parts;
      return part === undefined ? null : (tcsOf(part, items[0] ?? null)?.kind ?? null);
    };
    expect(["wild hare", "smoked herring", "Schweinefleisch", "cockles"].map(kind)).toEqual(
      Array.from({ length: 4 }, () => "animal"),
    );
    expect(["oyster plant", "oyster mushroom", "beefsteak tomatoes"].map(kind)).toEqual([
      null,
      null,
      "cut tomato",
    ]);
  });
});

describe("treatments", () => {
  it("water taken up is no cooking", () => {
    const text = file(
      "  taro: {price: 3.00 / kg}",
      `steps:\n  soak: {from: taro peeled flesh, gives: {soaked taro: 120 %}, water: 20 %}
dishes:\n  salad: {portions: 10, lines: [{amount: 100 g, from: soaked taro}]}\n`,
    );
    expect(problems(text)).toEqual([
      expect.stringMatching(
        /^t\.yaml:9:55: salad uses soaked taro.*"cooked thoroughly".*Source: Hong Kong Centre for Food Safety/,
      ),
    ]);
  });
});

describe("what must never be eaten", () => {
  it("is reported beside the file's other mistakes, where it is written, with who says so", () => {
    const text = file(
      "  rhubarb: {form: stalks with leaves, price: 3.00 / kg}",
      `steps:\n  stew: {from: rhubarb leaf, gives: {stewed greens: 100 %}}
dishes:
  tart: {portions: 10, ceilng: 3.00, lines: [{amount: 100 g, from: rhubarb leaf}]}
  bowl: {portions: 10, lines: [{amount: 100 g, from: rhubarb stork}]}\n`,
    );
    const found = problems(text);
    expect(found).toHaveLength(4);
    expect(found.some((each) => each.includes(":9:24: `ceilng`"))).toBe(true);
    const never = found.filter((each) => each.includes("rhubarb leaf must not be eaten"));
    expect(never).toEqual([
      expect.stringMatching(/^t\.yaml:9:68: .*made into food by "stew".*MedlinePlus.*\. Leave it out$/),
    ]);
    expect(found.some((each) => each.includes("stewed greens"))).toBe(true);
    expect(found.some((each) => each.includes("rhubarb stork"))).toBe(true);
  });
});

describe("what must never be eaten, at the bin", () => {
  // Merck Veterinary Manual, from memory: rhubarb leaves poison livestock as they do people.
  it("feeds no animals, though other inedible parts do", async () => {
    const text = file(
      "  rhubarb: {form: stalks with leaves, price: 3.00 / kg, cut: [trimmed]}",
      `destinations:\n  pigs: {kind: animal feed, local_rules_allow: an invented notice}
dishes:\n  tart: {portions: 10, lines: [{amount: 100 g, from: rhubarb stalk}]}\n`,
    );
    const { plan } = await planScenario(loaded(text), { engines, seconds: 10 });
    const gone = plan.leftovers
      .filter(({ class: kind }) => kind !== "food")
      .map(({ part, destination }) => `${part}: ${destination}`);
    expect(gone.sort()).toEqual(["rhubarb ends: pigs", "rhubarb leaf: refuse"]);
  });
});

describe("allergens", () => {
  it("stated for a part go on through steps, and what a neighbour's item may hold is shared", () => {
    const scenario = `parts:
  potato peeled flesh: {allergens: [egg]}
steps:
  dice: {from: potato peeled flesh, gives: {potato dice: 100 %}}
dishes:
  hash: {portions: 10, diets: [no egg], lines: [{amount: 100 g, from: potato dice}]}
  chips: {portions: 10, shares: fryer, diets: [no nuts], staples: {salt: 0.01}, lines: [{amount: 100 g, from: celeriac peeled root}]}
  rings: {portions: 10, shares: fryer, lines: [{amount: 100 g, from: leek white}]}
`;
    const items = `${POTATO}
  celeriac: {price: 2.00 / kg}
  leek: {form: untrimmed, price: 1.00 / each, may_contain: [peanuts]}`;
    const found = problems(file(items, scenario));
    expect(found.filter((each) => each.includes("hash"))).toEqual([
      expect.stringContaining('hash is said to be "no egg" and carries egg: an allergen'),
    ]);
    expect(found.filter((each) => each.includes("chips is"))).toEqual([
      expect.stringContaining('chips is said to be "no nuts" and may contain peanuts'),
    ]);
  });
});
