import { describe, expect, it } from "vitest";
import { run } from "../support/program.js";

const PRICES = ["--price", "untrimmed head=1.10 / head", "--price", "crown=4.20 / kg"];
const FORMS = ["forms", "--item", "broccoli", "--want", "floret"];

describe("forms", () => {
  /**
   * The tables: 61 % of a head of 500 g is floret, 78 % of a crown of 320 g. 2.20 / 0.61 = 3.607 and 4.20 / 0.78 =
   * 5.385 a kilogram of floret; a crown's kilogram is worth 0.78 x 3.607 = 2.813, which is 0.90 a crown.
   */
  it("compares prices alone, with the yields of the tables", async () => {
    const { code, stdout, stderr } = await run(...FORMS, ...PRICES);
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout).toContain("Untrimmed head is the cheapest: €3.61 a usable kg; next comes crown at €5.38.");
    expect(stdout.replace(/\s+/g, " ")).toContain(
      "Crown is worth it below €0.90 a crown (€2.81 a kg); above that, untrimmed head is cheaper.",
    );
  });

  it("credits trim and counts hands, and gives the same as JSON", async () => {
    const { code, stdout } = await run(
      ...FORMS,
      ...PRICES,
      "--credit",
      "stem=1.50 / kg",
      "--wage",
      "15 / h",
      "--json",
    );
    expect(code).toBe(0);
    const { forms, plans, wage } = JSON.parse(stdout);
    expect([wage, plans]).toEqual(["15.00", null]);
    // A head's kilogram: 2.20 + 6 min at 15.00 = 1.50, less 0.2 kg of stem at 1.50; over 0.61.
    expect(Number(forms[0].usableCost)).toBeCloseTo((2.2 + 1.5 - 0.3) / 0.61, 3);
    expect(Number(forms[1].usableCost)).toBeCloseTo((4.2 + (15 * 6.25) / 60 - 0.16 * 1.5) / 0.78, 3);
  });

  it("goes by the kitchen's own tests where there are some", async () => {
    const prices = ["--price", "bunch with tops=2.40 / bunch", "--price", "with part tops=1.80 / kg"];
    const asked = ["forms", "--item", "beet", "--want", "root", ...prices, "--json"];
    const { stdout } = await run(...asked, "--kitchen", "examples/after-service");
    const { forms } = JSON.parse(stdout);
    // Published 56 %; the kitchen's own test of seven bunches gave 52.9 %.
    expect(forms[1].item).toBe("beet, bunch with tops");
    expect(Number(forms[1].usable)).toBeGreaterThan(0.529);
    expect(Number(forms[1].usable)).toBeLessThan(0.56);
  });

  it("speaks of pounds where a price does, and says which parts are usable", async () => {
    const { stdout } = await run(
      ...FORMS,
      "--price",
      "crown=1.90 / lb",
      "--price",
      "untrimmed head=1.10 / head",
    );
    // 1.10 / 1.1023 lb / 0.61 and 1.90 / 0.78.
    expect(stdout).toContain("Untrimmed head is the cheapest: €1.64 a usable lb; next comes crown at €2.44.");
    expect(stdout).toContain("By usable weight: floret");
  });

  it("says everything that is wrong with what was asked", async () => {
    const wrong = await run(
      "forms",
      "--item",
      "broccoli",
      "--want",
      "florett",
      "--price",
      "crwn=4.20 / kg",
      "--price",
      "untrimmed head=1 / bag",
    );
    expect(wrong.code).toBe(2);
    expect(wrong.stderr.trim().split("\n")).toEqual([
      '--want florett: no form of broccoli gives a part for eating called "florett". Did you mean "floret"?',
      '--price "crwn=4.20 / kg": the tables hold no form `crwn` of `broccoli`. Did you mean `crown`?',
      expect.stringContaining('--price "untrimmed head=1 / bag": '),
    ]);
    const twice = await run(...FORMS, ...PRICES, "--price", "crown=3.90 / kg");
    expect([twice.code, twice.stderr]).toEqual([
      2,
      '--price "crown=..." is given more than once. Write one price for each form.\n',
    ]);
    const missing = await run("forms", "--item", "brocoli");
    expect(missing.stderr).toContain('Did you mean "broccoli"');
    expect(missing.stderr).toContain("--price is missing");
    expect(missing.stderr).toContain("--want is missing");
    const single = await run("forms", "examples/smallest.yaml", "--item", "broccoli");
    expect([single.code, single.stderr]).toEqual([
      2,
      'examples/smallest.yaml: the scenario buys no two forms of "broccoli". Add another item with `of:` and the item\'s name, its form and its price.\n',
    ]);
  });

  it("plans a scenario with each form alone and with the choice free", async () => {
    const { code, stdout } = await run("forms", "examples/two-forms.yaml", "--item", "broccoli");
    expect(code).toBe(0);
    expect(stdout).toMatch(/Untrimmed head alone\n +buy: \d+ untrimmed heads/);
    expect(stdout).toMatch(/Crown alone\n +buy: \d+ crowns/);
    expect(stdout).toMatch(/Choice free\n +buy:\n? +\d/);
    expect(stdout.replace(/\s+/g, " ")).toMatch(
      /Crown: alone, it costs less than the best other form below €\d\.\d\d a crown/,
    );
  });
});
