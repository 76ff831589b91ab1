import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { worthSchema } from "../../src/contract/index.js";
import { run } from "../support/program.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";

let folder: ReturnType<typeof scratchFolder>;
const file = (name: string) => join(folder.path, name);
beforeAll(() => {
  folder = scratchFolder({ "bake.yaml": marrowBake(), "dear.yaml": marrowBake({ ceiling: "0.20" }) });
});
afterAll(() => folder.remove());

describe("worth", () => {
  // Eight portions of 200 g are two marrows' 1,600 g of dice, at 1.60 each, and 8 x 0.10 of cream: 4.00. A ninth needs
  // a third marrow, of whose 800 g it takes 200.
  it("prints what each dish, item and part is worth, and is quiet beside", async () => {
    const { code, stdout, stderr } = await run("worth", file("bake.yaml"));
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout.split("\n").slice(2, -3)).toEqual([
      "Dishes: what each one changes",
      "  marrow bake: 8 portions",
      "      left out: spend −€4.00, Buy no marrow, 2 fewer",
      "      a portion more: waste +600 g, spend +€1.70",
      "      a portion less: waste +200 g, spend −€0.10",
      "Items: one more bought, one less",
      "  marrow: 2 heads of marrow bought",
      "      one more: spend +€1.60",
      "      one less: no plan",
      "Parts: a little more in the house, a little taken for something else",
      "  marrow dice: There is no plan without these 1,600 g; beyond 1,600 g there is no use for it.",
      "      step: 100 g",
      "      one step more: waste +100 g",
      "      one step less: waste +700 g, spend +€1.60",
    ]);
  });

  it("prints it as JSON that keeps the contract, and writes its page", async () => {
    const out = file("pages");
    const { code, stdout, stderr } = await run("worth", file("bake.yaml"), "--json", "--out", out);
    expect([code, stderr]).toEqual([0, `Pages: ${out}/worth.html\n`]);
    const { outcome, asked, items } = worthSchema.strict().parse(JSON.parse(stdout));
    expect([outcome, asked.done]).toEqual(["worth", asked.of]);
    expect(items).toMatchObject([{ item: "marrow", units: 2, less: { kind: "no plan" } }]);
    expect(readFileSync(join(out, "worth.html"), "utf8")).toContain("spend +€1.60");
  });

  it("ends with 1 where no plan exists", async () => {
    const { code, stdout } = await run("worth", file("dear.yaml"));
    expect([code, stdout.split("\n")[1]]).toEqual([
      1,
      "There is no plan to speak of: plan the scenario to see what would make one.",
    ]);
  });
});
