import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkCommand } from "../../src/commands/scenario-file.js";
import { type TestCardOptions, testCardCommand } from "../../src/commands/test-card.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { problemText } from "../../src/reading/index.js";
import { type TestKind, testFigures } from "../../src/yields/index.js";
import { exampleText, rewritten } from "../support/examples.js";
import { run } from "../support/program.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";
import { cardProblems, testCard, VEAL } from "../support/test-cards.js";

let scratch: ReturnType<typeof scratchFolder>;
beforeEach(() => {
  scratch = scratchFolder({ "veal.yaml": VEAL });
});
afterEach(() => scratch.remove());

async function command(kind: TestKind, name: string | undefined, options: TestCardOptions = {}) {
  const { terminal, printed, complained } = aTerminal();
  const file = name === undefined ? undefined : join(scratch.path, name);
  const code = await testCardCommand(kind, file, options, terminal);
  return { code, text: printed.join("\n"), complained };
}

describe("butchers-test", () => {
  it("prints where the weight and the cost went, and what the usable part comes to", async () => {
    const { code, text, complained } = await command("butchers", "veal.yaml");
    expect([code, complained]).toEqual([0, []]);
    expect(text).toBe(
      `Butcher's test: veal breast
                  Weight, g  % of AP  per kg   total
    Bones               900    17.3%   €1.50   €1.35
    Trimmings           640    12.3%   €4.20   €2.69
    Sinew               130     2.5%           €0.00
    Cutting loss         50     1.0%
    Usable            3,480    66.9%          €34.44
    As purchased      5,200   100.0%   €7.40  €38.48

    Cost of usable           €34.44  €38.48 less €4.04 for by-products
    Cost per kg usable        €9.90  for 3,480 g
    Cost factor per kg        1.337  times an AP price
    Cost per portion          €1.78  of 180 g
    Cost factor per portion   0.241  times an AP price per kg
    To buy per portion        269 g  as purchased
    Portions                     19  60 g left over`
        .replaceAll("of 180 g", "of 180\u00a0g")
        .replaceAll("for 3,480 g", "for 3,480\u00a0g")
        .replaceAll("269 g  as", "269\u00a0g  as")
        .replaceAll("60 g left", "60\u00a0g left"),
    );
  });

  it("re-prices by cost factor, and says what that takes for granted", async () => {
    const { text } = await command("butchers", "veal.yaml", { price: "8.00 / kg" });
    expect(text).toContain(
      "At a new price of €8.00 per kg\n    Cost per kg usable  €10.70\n    Cost per portion     €1.93\n",
    );
    expect(text).toContain("as long as by-product prices move with the AP price");
    const wrong = await command("butchers", "veal.yaml", { price: "8.00" });
    expect([wrong.code, wrong.complained]).toEqual([
      2,
      ["--price: `8.00` does not say what the price is for. Write a price for a weight, such as `4.00 / kg`"],
    ]);
  });

  it("prints JSON, every figure as text", async () => {
    const { text } = await command("butchers", "veal.yaml", { json: true });
    const card = JSON.parse(text);
    expect(card).toMatchObject({
      schema: "trim-to-use/test-card@1",
      test: "butcher's test",
      apCost: "38.48",
      product: { name: "usable", weight: "3480", cost: "34.44", price: "9.9" },
      portion: { weight: "180", cost: "1.78", count: 19 },
      repriced: null,
    });
    expect(card.rows[1]).toEqual({
      kind: "by-product",
      name: "trimmings",
      weight: "640",
      percent: "12.3",
      price: "4.2",
      value: "2.69",
    });
  });

  it("writes the cards of the file and blank forms of them as pages", async () => {
    const out = join(scratch.path, "pages");
    await command("butchers", "veal.yaml", { out });
    expect(
      readdirSync(out)
        .filter((name) => name.endsWith(".html"))
        .sort(),
    ).toEqual([
      "butchers-test-form.html",
      "butchers-test.html",
      "cooking-loss-form.html",
      "cooking-loss.html",
    ]);
    expect(existsSync(join(out, "assets", "style.css"))).toBe(true);
    expect(readFileSync(join(out, "butchers-test-form.html"), "utf8")).toContain("Trimmings");
  });

  it("prints a blank file that only waits to be filled in", async () => {
    for (const kind of ["butchers", "cooking"] as const) {
      const { code, text } = await command(kind, undefined, { blank: true });
      expect(code).toBe(0);
      const problems = cardProblems(text);
      expect(problems.length).toBeGreaterThan(8);
      for (const problem of problems) expect(problem).toContain("nothing is written here");
    }
    const filled = (await command("butchers", undefined, { blank: true })).text
      .replace("item:", "item: pork loin")
      .replace(/^(grade|supplier):.*$/gm, "$1: A")
      .replace("date:", "date: 2026-10-06")
      .replace("ap_weight:", "ap_weight: 4.2 kg")
      .replace("ap_price:", "ap_price: 6.40 / kg")
      .replace("    fat:", "    fat: 600 g")
      .replace("weight: ,", "weight: 800 g,")
      .replace("value: }", "value: 1.20 / kg}")
      .replace("cutting_loss:", "cutting_loss: 20 g")
      .replace("usable_weight:", "usable_weight: 2.78 kg")
      .replace("portion:", "portion: 180 g");
    expect(cardProblems(filled)).toEqual([]);
  });

  it("asks for a file, for one that is there, and for one that holds the test", async () => {
    expect(await command("butchers", undefined)).toMatchObject({
      code: 2,
      complained: ["Name a file with the test, or print one to fill in: butchers-test --blank"],
    });
    expect((await command("cooking", "none.yaml")).complained[0]).toContain("there is no such file");
    writeFileSync(join(scratch.path, "bake.yaml"), marrowBake());
    expect((await command("cooking", "bake.yaml")).complained).toEqual([
      `${join(scratch.path, "bake.yaml")}:1:1: this is a scenario, and no butcher's test or cooking-loss test. Plan it with \`plan\`, or name a file with such a test`,
    ]);
    expect(await command("cooking", "veal.yaml", { blank: true })).toMatchObject({
      code: 2,
      complained: ["`--blank` prints an empty card: leave out the file"],
    });
    writeFileSync(join(scratch.path, "one.yaml"), VEAL.slice(0, VEAL.indexOf("cooking_loss_test")));
    const { code, complained } = await command("cooking", "one.yaml");
    expect(code).toBe(2);
    expect(complained[0]).toMatch(
      /one.yaml: the file holds no `cooking_loss_test`. Add `cooking_loss_test:`/,
    );
  });
});

describe("check", () => {
  it("takes test cards as it takes scenarios", async () => {
    const checked = async (name: string) => {
      const { terminal, printed, complained } = aTerminal();
      return { code: await checkCommand(join(scratch.path, name), terminal), printed, complained };
    };
    expect(await checked("veal.yaml")).toMatchObject({ code: 0, complained: [] });
    writeFileSync(join(scratch.path, "veal.yaml"), rewritten(VEAL, "ap_weight: 5.2 kg", "ap_weigth: 5.2 kg"));
    const { code, complained } = await checked("veal.yaml");
    expect(code).toBe(2);
    expect(complained.join("\n")).toContain(
      "veal.yaml:3:1: `ap_weigth` is no key that is known here. Did you mean `ap_weight`?",
    );
    expect((await checked("none.yaml")).complained[0]).toContain("there is no such file");
    const misnamed = VEAL.replace("butchers_test:", "butcher_test:");
    writeFileSync(join(scratch.path, "veal.yaml"), misnamed.slice(0, misnamed.indexOf("cooking_loss_test")));
    expect((await checked("veal.yaml")).complained.join("\n")).toContain(
      "`butcher_test` is no key that is known here. Did you mean `butchers_test`?",
    );
  });
});

describe("the program", () => {
  it("works out the example, both tests, and leaves 'plan' to scenarios", async () => {
    const card = testCard(exampleText("pork-shoulder"));
    expect(testFigures(card).map(({ productCost }) => productCost.toFixed(2))).toEqual(["29.11", "28.00"]);
    const cooking = await run("cooking-loss", "examples/pork-shoulder.yaml", "--price", "5.20 / kg");
    expect(cooking.code).toBe(0);
    expect(cooking.stdout).toContain("Cost per kg carved roast  €10.17");
    expect(loadScenarioText("pork.yaml", exampleText("pork-shoulder")).problems.map(problemText)).toEqual([
      "pork.yaml:1:1: this is a butcher's test or a cooking-loss test, and no scenario. Work it out with `butchers-test` or `cooking-loss`",
    ]);
    expect(exampleText("pork-shoulder")).toContain("invented: yes");
  });

  it("says what is missing, and ends with 2", async () => {
    writeFileSync(join(scratch.path, "veal.yaml"), rewritten(VEAL, "sinew: 130 g", "sinew: 100 g"));
    const { code, stderr } = await run("butchers-test", join(scratch.path, "veal.yaml"));
    expect(code).toBe(2);
    expect(stderr).toContain(
      "veal.yaml:5:1: by-products, cutting loss and usable weight make 5170 g, 30 g too little",
    );
  });
});
