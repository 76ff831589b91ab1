import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkSafety } from "../../src/safety/index.js";
import { aDish, aStaple } from "../support/nouns.js";
import { buildScenario, servingOf } from "../support/scenario-builder.js";

const FILE = new URL("./names-written-blind.txt", import.meta.url);

interface Written {
  readonly line: number;
  readonly kind: string;
  readonly item: string;
  readonly part: string;
}

const written = readFileSync(FILE, "utf8")
  .split("\n")
  .flatMap((text, index): Written[] => {
    if (text.trim() === "" || text.trimStart().startsWith("#")) return [];
    const [kind = "", item = "", part = ""] = text.split("|").map((cell) => cell.trim());
    return [{ line: index + 1, kind, item, part }];
  });

/** Whether it is refused as a part of its item, and, written in one, as a staple of a dish. */
function refusals({ item, part }: Written): boolean[] {
  const name = `${item} ${part}`.trim();
  const staple = buildScenario({ dishes: [aDish("plate", [], [aStaple(name, "0.1")])] });
  const scenarios = item === "" ? [staple] : [servingOf({ item, part }), staple];
  return scenarios.map((scenario) => checkSafety(scenario).blocks.some(({ code }) => code === "never-food"));
}

describe("names written by someone who has not seen the tables", () => {
  it("stand one a line, as never or as food, item and part", () => {
    const crooked = written.filter(({ kind, part }) => !["never", "food"].includes(kind) || part === "");
    expect(crooked).toEqual([]);
    expect(written.filter(({ kind }) => kind === "never").length).toBeGreaterThan(0);
  });

  it("leave no way round what must never be eaten, and take no food for poison", () => {
    const faults = written.flatMap((entry) => {
      const name = `line ${entry.line}: ${entry.item} ${entry.part}`;
      const found = refusals(entry);
      if (entry.kind === "never") return found.every((refused) => refused) ? [] : [`${name} gets through`];
      return found.some((refused) => refused) ? [`${name} is refused`] : [];
    });
    expect(faults).toEqual([]);
  });
});
