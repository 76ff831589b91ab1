import { describe, expect, it } from "vitest";
import { starterText } from "../../src/commands/scenario-file.js";
import { readScenario } from "../../src/kitchen/index.js";
import { problemText } from "../../src/reading/index.js";
import { resolveScenario } from "../../src/scenario/index.js";
import { loadYieldTables, type TableItem } from "../../src/yields/index.js";

const { tables, problems } = loadYieldTables();

function problemsOf(items: readonly TableItem[]): string[] {
  const read = readScenario({ file: "starter.yaml", text: starterText(items, "2026-10-02") });
  return resolveScenario(read, tables).problems.map(problemText);
}

describe("a starter scenario", () => {
  it("has tables to begin from", () => {
    expect(problems).toEqual([]);
    expect(tables.items.length).toBeGreaterThan(150);
  });

  it.each(tables.items.map((item) => [`${item.name}, ${item.form}`, item] as const))(
    "of %s reads and resolves without a problem",
    (_, item) => {
      expect(problemsOf([item])).toEqual([]);
    },
  );

  it("takes each line it offers once the mark before it is gone", () => {
    const broccoli = tables.items.filter(({ name }) => name === "broccoli").slice(0, 1);
    const text = starterText(broccoli, "2026-10-02");
    const offers = text.split("\n").filter((line) => /^ +# [a-z_]+: /.test(line));
    expect(offers.map((line) => line.trim().split(/[ :]+/)[1])).toEqual(
      expect.arrayContaining(["buy", "on_hand", "cut", "ceiling"]),
    );
    for (const offer of offers) {
      const read = readScenario({ file: "starter.yaml", text: text.replace(offer, offer.replace("# ", "")) });
      expect(resolveScenario(read, tables).problems.map(problemText), offer).toEqual([]);
    }
  });

  it("weighs what the one line says today's units weigh", () => {
    const broccoli = tables.items.filter(({ name }) => name === "broccoli").slice(0, 1);
    const text = starterText(broccoli, "2026-10-02").replace(/unit_weight: [\d.]+ g/, "unit_weight: 555 g");
    const { scenario } = resolveScenario(readScenario({ file: "starter.yaml", text }), tables);
    expect(scenario?.items[0]?.unitWeight).toBe(555_000n);
  });

  it("of many items at once does too, and asks for dishes of all of them", () => {
    const byName = new Map(tables.items.map((item) => [item.name, item]));
    const items = [...byName.values()];
    const read = readScenario({ file: "starter.yaml", text: starterText(items, "2026-10-02") });
    const { scenario, problems: found } = resolveScenario(read, tables);
    expect(found.map(problemText)).toEqual([]);
    expect(scenario?.items.map(({ name }) => name)).toEqual(items.map(({ name }) => name));
    expect(scenario?.dishes.length).toBe(2 * items.length);
  });
});
