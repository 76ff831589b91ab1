import { describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { planScenario } from "../../src/planning/index.js";
import { type Decimal, toGrams } from "../../src/quantity/index.js";
import { hazardsOf } from "../../src/safety/index.js";
import {
  loadYieldTables,
  readYieldTests,
  type TableBreakdown,
  type TableItem,
} from "../../src/yields/index.js";
import { first, HAZARDS, ITEM_NAMES, PARTS } from "../support/safety-tables.js";
import { servingOf } from "../support/scenario-builder.js";

/** A scenario that serves a part of its own breakdown, classed as food, sworn to be food. */
const serving = (item: string, part: string): string =>
  JSON.stringify({
    scenario: "sworn",
    currency: "EUR",
    services: [{ name: "dinner", date: "2026-10-02" }],
    items: {
      [item]: {
        price: "1.00 / each",
        unit_weight: "500 g",
        form: "as it comes",
        breakdowns: { own: { parts: { [part]: { weight: "100 %", class: "food" } } } },
        cut: ["own"],
      },
    },
    parts: { [`${item} ${part}`]: { food_by: "A. Cook, who eats it" } },
    dishes: { plate: { portions: 2, lines: [{ amount: "50 g", from: `${item} ${part}` }] } },
  });

const ROWS = HAZARDS.filter(({ rule }) => rule.kind === "never").flatMap((row) =>
  row.items.map((item) => ({
    row,
    item: first(ITEM_NAMES[item]),
    part: row.parts === "any" ? "piece" : first(PARTS[row.parts[0] ?? "leaf"]),
  })),
);

describe("a part that must never be eaten", () => {
  it("is refused in a file for every row of the table, whatever its class says and whoever swears to it", () => {
    const through = ROWS.flatMap(({ row, item, part }) => {
      const { scenario, problems } = loadScenarioText("sworn.yaml", serving(item, part));
      const said = problems.some(
        ({ what }) => what.includes(row.hazard) && what.includes(row.authority.slice(0, 20)),
      );
      // Where the tables know the item by other forms, the file is refused before its parts are judged.
      const known = problems.some(({ what }) => what.includes("the tables hold no form"));
      return scenario === null && (said || known)
        ? []
        : [`${item} ${part}: ${problems.map(({ what }) => what).join("; ")}`];
    });
    expect(through).toEqual([]);
    expect(ROWS.length).toBeGreaterThan(80);
  });

  it("is planned by no one who hands in a scenario made elsewhere", async () => {
    const engines = new Engines();
    const scenario = servingOf({ item: "rhubarb", part: "leaf" });
    await expect(planScenario(scenario, { engines, seconds: 5 })).rejects.toThrow(
      "rhubarb leaf must not be eaten (classed as food, in plate)",
    );
    await engines.close();
  });

  it("is refused in the kitchen's own yield tests, which may not call it food", () => {
    const { tables } = loadYieldTables();
    const faults: string[] = [];
    let tried = 0;
    for (const item of tables.items) {
      for (const breakdown of item.breakdowns) {
        const never = breakdown.parts.filter(({ part, class: kind }) => {
          const rules = hazardsOf(item.name, part).map(({ rule }) => rule.kind);
          return kind === "never" || rules.includes("never");
        });
        for (const { part, class: kind } of never) {
          tried++;
          if (kind !== "never" && kind !== "inedible") faults.push(`the tables call ${part} ${kind}`);
          const test = (swornTo: string | null) => ownTest(item, breakdown, part, swornTo);
          const honest = readYieldTests({ file: "yield-tests.csv", text: test(null) }, tables);
          if (honest.problems.length > 0) faults.push(`${part}: ${honest.problems[0]?.what}`);
          const { tests, problems } = readYieldTests({ file: "yield-tests.csv", text: test("food") }, tables);
          const cell = problems.find(({ what }) => what.includes(part) && what.includes("food"));
          if (tests.length > 0 || cell === undefined) faults.push(`${part} passes as food in a yield test`);
        }
      }
    }
    expect(faults).toEqual([]);
    expect(tried).toBeGreaterThan(10);
  });
});

/** A weighing of 100 kg cut as the tables have it, with one part classed otherwise where asked. */
function ownTest(
  item: TableItem,
  { name, parts, loss }: TableBreakdown,
  sworn: string,
  as: string | null,
): string {
  const head = "item,form,breakdown,supplier,date,units,ap_g,part,weight_g,class";
  const units = Math.max(1, Math.round(100_000 / toGrams(item.unitWeight).toNumber()));
  const row = (part: string, fraction: Decimal, kind: string) =>
    [
      item.name,
      item.form,
      name,
      "Hill Farm",
      "2026-09-01",
      units,
      100_000,
      part,
      fraction.times(100_000).toFixed(),
      kind,
    ]
      .map((cell) => `"${cell}"`)
      .join(",");
  return [
    head,
    ...parts.map(({ part, fraction, class: kind }) =>
      row(part.slice(item.name.length + 1), fraction, part === sworn && as !== null ? as : kind),
    ),
    ...(loss.isZero() ? [] : [row("loss", loss, "loss")]),
  ].join("\n");
}
