import { describe, expect, it } from "vitest";
import type { Handling } from "../../src/kitchen/index.js";
import type { Hazard, Rule } from "../../src/safety/hazards/types.js";
import { checkSafety, hazardsOf } from "../../src/safety/index.js";
import { first, HAZARDS, ITEM_NAMES, PARTS } from "../support/safety-tables.js";
import { servingOf } from "../support/scenario-builder.js";

/** Every item and part a row speaks of, by the first name of each; "piece" where it speaks of any part. */
function servings(row: Hazard): { item: string; part: string }[] {
  return row.items.flatMap((key) =>
    (row.parts === "any" ? ["piece"] : row.parts.map((part) => first(PARTS[part]))).map((part) => ({
      item: first(ITEM_NAMES[key]),
      part,
    })),
  );
}

const handling: Handling = "plant";

function expectRule(row: Hazard, rule: Rule, vulnerableDiners: boolean): void {
  for (const { item, part } of servings(row)) {
    const served = (treatments: readonly string[]) =>
      checkSafety(
        servingOf({
          item,
          part,
          itemFacts: { handling },
          dish: { treatments },
          scenario: { vulnerableDiners },
        }),
      );
    const name = `${item} ${part}`;
    const { blocks, warnings } = served([]);
    const said = (rule.kind === "warn" ? warnings : blocks).filter(
      (finding) => finding.text.includes(row.hazard) && finding.text.includes(rule.text),
    );
    expect(said, name).toHaveLength(1);
    const [finding] = said;
    expect(finding?.text).toContain(name);
    expect(finding?.text).toContain(row.authority);
    expect(finding?.source).toContain(row.authority);
    expect(finding?.part).toBe(name);
    if (rule.kind === "warn") continue;
    expect(finding?.dish).toBe("plate");
    expect(finding?.code).toBe(rule.kind === "never" ? "never-food" : "treatment-needed");
    for (const treatment of rule.kind === "only if"
      ? rule.treatments
      : ["boiled 60 minutes", "cooked thoroughly"]) {
      if (rule.kind === "only if") expect(finding?.text).toContain(`"${treatment}"`);
      const left = served([treatment]).blocks.filter(({ text }) => text.includes(rule.text));
      expect(left, `${name}, ${treatment}`).toHaveLength(rule.kind === "never" ? 1 : 0);
    }
  }
}

describe("every row of the table of hazards", () => {
  it.each(HAZARDS.map((row) => [row.id, row] as const))("%s: is refused, treated or warned of", (_, row) => {
    expectRule(row, row.rule, false);
  });

  const stricter = HAZARDS.flatMap(({ vulnerable, ...row }) =>
    vulnerable === undefined ? [] : [[row.id, row, vulnerable] as const],
  );
  it.each(stricter)("%s: is held to its stricter rule for vulnerable diners", (_, row, rule) => {
    expectRule(row, rule, true);
  });

  it("has names of its own, an authority, and says what it remembers", () => {
    expect(new Set(HAZARDS.map(({ id }) => id)).size).toBe(HAZARDS.length);
    expect(HAZARDS.length).toBeGreaterThan(100);
    for (const { id, authority, hazard, rule, basis } of HAZARDS) {
      expect(
        [hazard, authority, rule.text].every((text) => text.length > 5),
        id,
      ).toBe(true);
      if (basis === "read") expect(authority, id).not.toMatch(/^from memory/);
    }
  });

  it("knows every item by every name listed for it", () => {
    for (const row of HAZARDS.filter(({ rule }) => rule.kind === "never")) {
      for (const key of row.items) {
        for (const name of (ITEM_NAMES[key] ?? "").split(",").map((text) => text.replace("=", "").trim())) {
          for (const part of row.parts === "any" ? ["piece"] : row.parts.map((one) => first(PARTS[one]))) {
            const ids = hazardsOf(name, `${name} ${part}`).map(({ id }) => id);
            expect(ids, `${name} ${part}`).toContain(row.id);
          }
        }
      }
    }
  });

  it("knows every part by every name listed for it", () => {
    for (const row of HAZARDS.filter(({ rule }) => rule.kind === "never")) {
      if (row.parts === "any") continue;
      const item = first(ITEM_NAMES[row.items[0] ?? "rhubarb"]);
      for (const key of row.parts) {
        for (const part of (PARTS[key] ?? "").split(",").map((text) => text.trim())) {
          expect(
            hazardsOf(item, `${item} ${part}`).map(({ id }) => id),
            `${item} ${part}`,
          ).toContain(row.id);
        }
      }
    }
  });
});
