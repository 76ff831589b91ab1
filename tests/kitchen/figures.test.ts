import { describe, expect, it } from "vitest";
import { readScenario, type ScenarioFile } from "../../src/kitchen/index.js";
import { Decimal, grams, toGrams } from "../../src/quantity/index.js";
import { problemText } from "../../src/reading/index.js";

/** A scenario file that is sound but for the lines given, each put where its first key belongs. */
function scenario({
  head = "",
  item = "",
  dish = "",
  line = "amount: 100 g",
  from = "marrow ring",
  part = "480 g",
}) {
  const text = [
    "scenario: t",
    "currency: EUR",
    head,
    "services: [{name: s, date: 2026-10-02}]",
    "items:",
    "  marrow:",
    `    ${item}`,
    `    breakdowns: {rings: {parts: {ring: ${part}}}}`,
    "dishes:",
    "  bake:",
    `    ${dish}`,
    "    lines:",
    `      - {from: ${from}, ${line}}`,
  ];
  return readScenario({ file: "f.yaml", text: text.join("\n") });
}

function sound(read: ReturnType<typeof readScenario>): ScenarioFile {
  expect(read.problems.map(problemText)).toEqual([]);
  if (read.value === null) throw new Error("nothing was read");
  return read.value;
}

function problem(read: ReturnType<typeof readScenario>): string {
  expect(read.problems).toHaveLength(1);
  const [{ what, remedy } = { what: "", remedy: "" }] = read.problems;
  return `${what}. ${remedy}`;
}

const item = (lines: string) => sound(scenario({ item: lines })).items.marrow;
const amount = (text: string) => sound(scenario({ line: `amount: ${text}` })).dishes.bake?.lines?.[0]?.amount;

describe("a weight", () => {
  it.each([
    ["620 g", "620"],
    ["1.2 kg", "1200"],
    ["2 lb", "907.185"],
    ["4 oz", "113.398"],
    ["620g", "620"],
    ["3 label oz", "84"],
  ])("is read to the milligram: %s", (text, exact) => {
    const weight = item(`unit_weight: ${text}`)?.unit_weight;
    expect(weight === undefined ? null : toGrams(weight).toFixed()).toBe(exact);
  });

  it.each([
    ["620", "`620` has no unit. Write a weight with its unit, such as `620 g`"],
    ["620 gramms", "`gramms` is not a unit that is known here. Did you mean `gram`?"],
    [
      "620 furlongs",
      "`furlongs` is not a unit that is known here. Write a weight with its unit, such as `620 g`",
    ],
    ["heavy", "`heavy` is not an amount. Write a weight with its unit, such as `620 g`"],
    ["0 g", "`0 g` is nothing. Write more than zero, or leave it out"],
    ["0.0001 g", "`0.0001 g` is nothing. Write more than zero, or leave it out"],
    ["-5 g", "`-5` is below zero. Write a weight with its unit, such as `620 g`"],
    [
      "1,5 kg",
      "`1,5` has a comma in the number. Write decimals with a point and thousands without a mark: `1.5`",
    ],
    [
      '"1,234.5 g"',
      "`1,234.5` has a comma in the number. Write decimals with a point and thousands without a mark: `1234.5`",
    ],
    [
      "12345678901 g",
      "`12345678901` has more digits than a kitchen can mean. Write at most nine digits before the point and nine after it",
    ],
    [
      "2 cups",
      "`2 cups` is a volume, and what it weighs is not known. Weigh it and write the weight, such as `240 g`",
    ],
    ["[620 g]", "a list stands where something else belongs. Write a weight with its unit, such as `620 g`"],
    ["", "nothing is written here. Write a weight with its unit, such as `620 g`"],
  ])("is refused in plain words: %s", (text, words) => {
    expect(problem(scenario({ item: `unit_weight: ${text}` }))).toBe(words);
  });
});

describe("a recipe line's amount", () => {
  const weight = (least: string, most: string, stated: string) => ({
    kind: "weight",
    least: grams(least),
    most: grams(most),
    stated,
  });

  it.each([
    ["170 g", weight("170", "170", "raw")],
    ["150 to 180 g", weight("150", "180", "raw")],
    ["0.15 kg to 180 g", weight("150", "180", "raw")],
    ["120 g cooked", weight("120", "120", "cooked")],
    ["120 to 150 g cooked", weight("120", "150", "cooked")],
    ["120 g raw", weight("120", "120", "raw")],
    ["2 each", { kind: "pieces", least: 2, most: 2 }],
    ["1 to 2 pieces", { kind: "pieces", least: 1, most: 2 }],
  ])("is read: %s", (text, read) => {
    expect(amount(text)).toEqual(read);
  });

  const WRITE =
    "Write the weight of one portion, such as `170 g`, `150 to 180 g`, `120 g cooked` or `2 each`";
  it.each([
    [
      "180 to 150 g",
      "the least, 180 g, is above the most, 150 g. Write the smaller one first: `150 g to 180 g`",
    ],
    ["3 to 2 each", "the least, 3, is above the most, 2. Write the smaller one first: `2 to 3`"],
    ["1.5 each", `\`1.5 each\` is not whole pieces. ${WRITE}`],
    ["a handful", `\`a handful\` is not an amount. ${WRITE}`],
    ["150 to g", `\`150 to g\` is not an amount. ${WRITE}`],
    ["170", `\`170\` has no unit. ${WRITE}`],
  ])("is refused in plain words: %s", (text, words) => {
    expect(problem(scenario({ line: `amount: ${text}` }))).toBe(words);
  });
});

describe("a price", () => {
  const price = (text: string, head = "") =>
    sound(scenario({ item: `price: ${text}`, head })).items.marrow?.price;
  const d = (text: string) => new Decimal(text);

  it.each([
    ["1.35 / head", { kind: "unit", name: "head" }],
    ["1.35 / bunches", { kind: "unit", name: "bunch" }],
    ["1.35 each", { kind: "unit", name: "each" }],
    ["4.00 / kg", { kind: "weight", grams: d("1000"), name: "kg" }],
    ["4.00 / 100 g", { kind: "weight", grams: d("100"), name: "100 g" }],
    ["4.00 / lb", { kind: "weight", grams: d("453.59237"), name: "lb" }],
    ["8.40 / case of 6", { kind: "pack", name: "case of 6", count: 6 }],
    ["8.40 / case of 6 heads", { kind: "pack", name: "case of 6 heads", count: 6 }],
    ["6.20 / bag of 5 kg", { kind: "pack of weight", name: "bag of 5 kg", grams: d("5000") }],
    ["1.10 / L", { kind: "volume", millilitres: d("1000"), name: "L" }],
    ["0 / kg", { kind: "weight", grams: d("1000"), name: "kg" }],
  ])("is read: %s", (text, per) => {
    expect(price(text)?.per).toEqual(per);
  });

  it("keeps its figure as written", () => {
    expect(price("1.3505 / head")?.amount.toFixed()).toBe("1.3505");
  });

  it("knows cups only once it is told which", () => {
    expect(price("4.00 / cup", "units: {cup: metric}")?.per).toMatchObject({ millilitres: d("250") });
    expect(price("4.00 / us pint")?.per).toMatchObject({ millilitres: d("473.176473") });
    expect(problem(scenario({ item: "price: 4.00 / cup" }))).toBe(
      "`cup` does not say which measure: a US cup is 236.588 mL, a metric one 250 mL, a US label one 240 mL. Add `units: {cup: us}` to the scenario (or `metric`, or `us_label`), or write mL",
    );
    expect(problem(scenario({ item: "price: 4.00 / pint", head: "units: {cup: metric}" }))).toBe(
      "there is no pint in the measures stated, `cup: metric`. Write mL, or say which is meant: `us pint` or `imperial pint`",
    );
  });

  const WRITE = "Write a price and what it is for, such as `1.35 / head`, `4.00 / kg` or `8.40 / case of 6`";
  it.each([
    ["1.35", `\`1.35\` does not say what the price is for. ${WRITE}`],
    ["-1.35 / head", `\`-1.35\` is below zero. ${WRITE}`],
    ["dear / head", `\`dear\` is not an amount of money. ${WRITE}`],
    ["£1.35 / head", "`£1.35` has a currency sign in it. The currency is stated once for all; write `1.35`"],
    [
      "1.35 EUR / head",
      "`1.35 EUR` has a currency sign in it. The currency is stated once for all; write `1.35`",
    ],
    ["8.40 / case of six", `\`8.40 / case of six\` is not an amount. ${WRITE}`],
    ["8.40 / case of 6.5", `\`6.5\` is not a whole number of units. ${WRITE}`],
    ["4.00 / 0 kg", "`0 kg` is nothing. Write more than zero, or leave it out"],
    ["4.00 / 2 heads", `\`2 heads\` is not something that is bought. ${WRITE}`],
  ])("is refused in plain words: %s", (text, words) => {
    expect(problem(scenario({ item: `price: ${text}` }))).toBe(words);
  });
});

describe("shares, percents and counts", () => {
  it("are read", () => {
    const read = sound(scenario({ item: "buy: 0 to 40", head: "invented: yes" }));
    expect(read.items.marrow?.buy).toEqual({ least: 0, most: 40 });
    expect(item("buy: no")?.buy).toBeNull();
    expect(item("buy: 12")?.buy).toEqual({ least: 12, most: 12 });
    expect(item("tax: 7.5 %")?.tax?.toFixed()).toBe("0.075");
    expect(item("keeps: 5 days")?.keeps).toBe(5);
    expect(item("keeps: 1 day")?.keeps).toBe(1);
  });

  it("are refused in plain words", () => {
    expect(problem(scenario({ item: "tax: 0.2" }))).toBe(
      "`0.2` has no percent sign. Write a percent, such as `5 %`",
    );
    expect(problem(scenario({ item: "buy: 40 to 0" }))).toBe(
      "the least, 40, is above the most, 0. Write the smaller one first: `0 to 40`",
    );
    expect(problem(scenario({ item: "buy: maybe" }))).toBe(
      "`maybe` is not a number. Write `no`, or the least and the most to buy, such as `0 to 40`",
    );
    expect(problem(scenario({ dish: "portions: 2.5" }))).toBe(
      "`2.5` is not a whole number. Write a whole number or two, such as `24` or `20 to 40`",
    );
    expect(problem(scenario({ item: "keeps: 0 days" }))).toBe(
      "`0 days` is nothing. Write more than zero, or leave it out",
    );
    expect(problem(scenario({ part: "34" }))).toBe(
      "`34` has no unit. Write a weight of one unit or a percent, such as `480 g` or `34 %`",
    );
  });

  it.each([
    ["50 to 100 %", "0.5", "1"],
    ["50 % to 60 %", "0.5", "0.6"],
    ["25 %", "0.25", "0.25"],
  ])("of a line are one percent or two: %s", (text, least, most) => {
    const from = sound(scenario({ from: `{marrow ring: {share: ${text}}}` })).dishes.bake?.lines?.[0]?.from;
    expect(from).toEqual({
      "marrow ring": { share: { least: new Decimal(least), most: new Decimal(most) } },
    });
  });

  it.each([
    ["50 to 120 %", "`50 to 120 %` is more than the whole. Write at most `100 %`"],
    ["half", "`half` is not a number. Write a percent or two, such as `50 %` or `50 to 100 %`"],
    ["50 to 100", "`50 to 100` has no percent sign. Write a percent or two, such as `50 %` or `50 to 100 %`"],
  ])("of a line are refused in plain words: %s", (text, words) => {
    expect(problem(scenario({ from: `{marrow ring: {share: ${text}}}` }))).toBe(words);
  });
});

describe("words, dates, times and money", () => {
  it.each([
    ["aim: wast", "`wast` cannot stand here. Did you mean `waste`? Write one of: waste, cost, balanced"],
    ["aim: profit", "`profit` cannot stand here. Write one of: waste, cost, balanced"],
    ["locale: english", "`english` is no language tag. Write one such as `en-GB` or `en-US`"],
    ["limits: {hands: 6}", "`6` is not a time. Write hours or minutes, such as `6 h` or `90 min`"],
    ["vulnerable_diners: perhaps", "`perhaps` is not yes or no. Write `yes` or `no`"],
    [
      "waste_price: 4.00 / head",
      "`4.00 / head` is not a price for a weight. Write a price for a weight, such as `4.00 / kg`",
    ],
    ["units: {cup: uk}", "`uk` cannot stand here. Did you mean `us`? Write one of: us, metric, us_label"],
  ])("are refused in plain words: %s", (head, words) => {
    expect(problem(scenario({ head }))).toBe(words);
  });

  it.each([
    [
      "2026-02-30",
      "`2026-02-30` is a day that no calendar has. Write a date as year-month-day, such as `2026-10-02`",
    ],
    ["2 Oct", "`2 Oct` is not a date. Write a date as year-month-day, such as `2026-10-02`"],
  ])("are refused in plain words: deliveries %s", (date, words) => {
    expect(problem(scenario({ item: `deliveries: [${date}]` }))).toBe(words);
  });

  it("are read", () => {
    const read = sound(
      scenario({ head: "limits: {hands: 1 h 30 min}\nlocale: de-de\nwaste_price: 1.00 / lb" }),
    );
    expect(read.limits?.hands).toBe(90);
    expect(read.locale).toBe("de-DE");
    expect(read.waste_price?.toDecimalPlaces(6).toFixed()).toBe("2.204623");
  });
});
