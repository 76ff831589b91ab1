import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { starterText } from "../../src/commands/scenario-file.js";
import { planSchema } from "../../src/contract/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { run, runBuilt } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";

const folder = scratchFolder();
afterAll(() => folder.remove());
const { tables } = loadYieldTables();

describe("new", () => {
  it("writes a starter that plans as it stands", async () => {
    const file = join(folder.path, "first.yaml");
    const { code, stdout } = await runBuilt("new", file, "--item", "egg", "--item", "chicken", "zucchini");
    expect([code, stdout]).toEqual([0, `Wrote ${file}. Plan it with: trim-to-use plan ${file}\n`]);
    const text = readFileSync(file, "utf8");
    expect(text).toMatch(/^ {2}courgette:$/m);
    const { code: planned, stdout: json } = await runBuilt("plan", file, "--json");
    const plan = planSchema.parse(JSON.parse(json));
    expect([planned, plan.outcome.certified]).toEqual([0, true]);
    expect(new Set(plan.purchases.map(({ item }) => item))).toEqual(new Set(["egg", "chicken", "courgette"]));
  });

  it("overrides today's weight in one line and switches buying off in another", async () => {
    const file = join(folder.path, "lines.yaml");
    await run("new", file, "--item", "marrow");
    const text = readFileSync(file, "utf8");
    const heavier = text.replace(/unit_weight: [\d.]+ g/, "unit_weight: 2800 g");
    expect(loadScenarioText("lines.yaml", heavier).scenario?.items[0]?.unitWeight).toBe(2_800_000n);
    const off = text.replace(/^ {4}# buy: no/m, "    buy: no");
    expect(loadScenarioText("lines.yaml", off).scenario?.items[0]?.buying).toBeNull();
    writeFileSync(file, off);
    expect((await run("plan", file)).code).toBe(1);
  });

  it("leaves an existing file alone, and names no folder that is not there", async () => {
    const file = join(folder.path, "kept.yaml");
    writeFileSync(file, "mine");
    const { code, stderr } = await run("new", file);
    expect(code).toBe(2);
    expect(stderr).toContain("is there already and was left as it is");
    expect(readFileSync(file, "utf8")).toBe("mine");
    const lost = await run("new", join(folder.path, "nowhere", "x.yaml"));
    expect([lost.code, lost.stderr.includes("Make the folder first")]).toEqual([2, true]);
  });

  it("asks what was meant by an item that the tables do not hold", async () => {
    const file = join(folder.path, "none.yaml");
    const { code, stderr } = await run("new", file, "--item", "brocoli");
    expect(code).toBe(2);
    expect(stderr).toContain('The yield tables hold no "brocoli". Did you mean "broccoli"');
    expect(existsSync(file)).toBe(false);
  });

  it("writes a starter that plans for every item and form of the yield tables", async () => {
    const engines = new Engines();
    const faults: string[] = [];
    for (const item of tables.items) {
      const name = `${item.name}, ${item.form}`;
      const { scenario, problems } = loadScenarioText(name, starterText([item], "2026-10-08"));
      faults.push(...problems.map(problemText));
      if (scenario === null) continue;
      const { plan } = await planScenario(scenario, { engines, seconds: 10 });
      if (plan.outcome.kind !== "optimal") faults.push(`${name}: ${plan.outcome.kind}`);
    }
    await engines.close();
    expect(tables.items.length).toBeGreaterThan(40);
    expect(faults).toEqual([]);
  });
});

describe("yield", () => {
  it("shows forms, breakdowns, and each part's percent, grams, days and source", async () => {
    const { code, stdout, stderr } = await run("yield", "egg");
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(/^egg, hen, large$/m);
    expect(stdout).toMatch(/^egg, hen, medium$/m);
    // USDA SR28 01124 and 01125: white 33 g and yolk 17 g of a large egg of 56.8 g in the shell.
    const white = /^ +white +food +58\.1 +33 +2 +± 1\.6 +\[(\d+)\]$/m.exec(stdout);
    expect(stdout).toMatch(/^ +yolk +food +29\.9 +17 +2 /m);
    expect(stdout).toMatch(new RegExp(`^ *\\[${white?.[1] ?? ""}\\] .*USDA SR28 01124`, "m"));
  });

  it("shows one form where it is named, and asks what was meant by an unknown item", async () => {
    const one = await run("yield", "egg, hen, medium");
    expect([one.code, one.stdout.includes("hen, large")]).toEqual([0, false]);
    const none = await run("yield", "leak");
    expect([none.code, none.stdout]).toEqual([2, ""]);
    expect(none.stderr).toContain('Did you mean "leek"');
  });
});
