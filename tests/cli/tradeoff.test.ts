import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { tradeoffSchema } from "../../src/contract/index.js";
import { run } from "../support/program.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";
import { TWO_LEEKS } from "../support/two-leeks.js";

let folder: ReturnType<typeof scratchFolder>;
const file = (name: string) => join(folder.path, name);
beforeAll(() => {
  folder = scratchFolder({
    "leeks.yaml": TWO_LEEKS,
    "dear.yaml": marrowBake({ ceiling: "0.20" }),
  });
});
afterAll(() => folder.remove());

describe("tradeoff", () => {
  it("prints the plans with what changes from one to the next, and is quiet beside", async () => {
    const { code, stdout, stderr } = await run("tradeoff", file("leeks.yaml"));
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout.split("\n")).toEqual([
      "Two leeks: waste against spend",
      "From 0 g of waste for €4.80 to 480 g for €3.00: each plan wastes more than the one before it, and",
      "  costs less.",
      "The plans, from least waste to least spend",
      "  1. Least waste",
      "      waste, g: 0",
      "      spend: €4.80",
      "  2",
      "      waste, g: 160",
      "      spend: €4.20",
      "      what changes:",
      "        Buy 2 trimmed leeks, 1 fewer",
      "        Buy 1 leek, 1 more",
      "        Cut 2 trimmed leeks cleaned, 1 fewer",
      "        Cut 1 leek cleaned, 1 more",
      "        Saves €0.60 for 160 g more waste",
      "  3",
      "      waste, g: 320",
      "      spend: €3.60",
      "      what changes:",
      "        Buy 2 leeks, 1 more",
      "        Buy 1 trimmed leek, 1 fewer",
      "        Cut 2 leeks cleaned, 1 more",
      "        Cut 1 trimmed leek cleaned, 1 fewer",
      "        Saves €0.60 for 160 g more waste",
      "  4. Least spend",
      "      waste, g: 480",
      "      spend: €3.00",
      "      what changes:",
      "        Buy 3 leeks, 1 more",
      "        Buy no trimmed leek, 1 fewer",
      "        Cut 3 leeks cleaned, 1 more",
      "        Cut no trimmed leek cleaned, 1 fewer",
      "        Saves €0.60 for 160 g more waste",
      "Proved: there are no others that better one without worsening the other by 1 g or €0.01 or more.",
      "  Each plan was checked and balanced to the milligram like any other.",
      "",
    ]);
  });

  it("prints them as JSON that keeps the contract, and writes their page", async () => {
    const out = file("pages");
    const { code, stdout, stderr } = await run(
      "tradeoff",
      file("leeks.yaml"),
      "--json",
      "--plans",
      "3",
      "--out",
      out,
    );
    expect([code, stderr]).toEqual([0, `Pages: ${out}/tradeoff.html\n`]);
    const tradeoff = tradeoffSchema.strict().parse(JSON.parse(stdout));
    expect(tradeoff.plans.map(({ waste, netSpend, proved }) => [waste, netSpend, proved])).toEqual([
      ["0", "4.80", true],
      ["320", "3.60", true],
      ["480", "3.00", true],
    ]);
    expect(tradeoff).toMatchObject({ outcome: "curve", complete: false, stoppedBy: "number of plans" });
    expect(readFileSync(join(out, "tradeoff.html"), "utf8")).toContain("Least spend");
  });

  it("ends with 1 where no plan exists, with 2 for wrong input", async () => {
    const none = await run("tradeoff", file("dear.yaml"));
    expect([none.code, none.stderr]).toEqual([1, ""]);
    expect(none.stdout).toContain("plan the scenario to see what would make one");
    const wrong = await run("tradeoff", file("leeks.yaml"), "--plans", "1");
    expect([wrong.code, wrong.stdout]).toEqual([2, ""]);
    expect(wrong.stderr).toContain("Write a whole number from 2, such as 12.");
    expect((await run("tradeoff", "nowhere.yaml")).code).toBe(2);
  });
});
