import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { RULES_OF } from "../../src/kitchen/index.js";
import { loadScenario } from "../../src/kitchen-files/index.js";
import { renderPages, safetyCasePage } from "../../src/pages/index.js";
import { planScenario } from "../../src/planning/index.js";
import { DEFERENCE, NOT_JUDGED, SAFETY_RULES } from "../../src/safety/index.js";
import { example, exampleText, rewritten, scenarioOf } from "../support/examples.js";
import { functionsRun } from "../support/functions-run.js";
import { DATE_RULES, HAZARDS } from "../support/safety-tables.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const entities: Readonly<Record<string, string>> = {
  "&#x27;": "'",
  "&quot;": '"',
  "&amp;": "&",
  "&lt;": "<",
  "&gt;": ">",
  "&#x3D;": "=",
};
const text = safetyCasePage({})
  .html.replace(/<[^>]*>/g, " ")
  .replace(/&(?:#x27|quot|amp|lt|gt|#x3D);/g, (entity) => entities[entity] ?? entity)
  .replace(/\s+/g, " ");

/** With a staple that must be treated first, and an item of which the file says what handling it needs. */
const WITH_BEANS = rewritten(
  rewritten(
    exampleText("smallest"),
    "onion and stock: {cost: 0.15, allergens: [celery]}",
    "red kidney beans: 0.30\n    treatments: [soaked overnight, boiled 15 minutes and water discarded]",
  ),
  "form: untrimmed head",
  "form: untrimmed head\n    handling: plant",
);

describe("the safety case", () => {
  it.each(SAFETY_RULES.map((rule) => [rule.id, rule] as const))(
    "%s acts and is tested where it says",
    (_, rule) => {
      expect(rule.acts.length).toBeGreaterThan(0);
      expect(rule.tests.length).toBeGreaterThan(0);
      for (const { file, name } of rule.acts) {
        const code = readFileSync(`${root}src/${file}`, "utf8");
        expect(code, `${name} in src/${file}`).toMatch(new RegExp(`\\bfunction ${name}\\b`));
      }
      for (const file of rule.tests) {
        expect(existsSync(`${root}tests/${file}`), file).toBe(true);
        expect(readFileSync(`${root}tests/${file}`, "utf8"), file).toContain("expect(");
      }
      expect(text).toContain(rule.rule);
      expect(text).toContain(rule.source);
    },
  );

  it("cites nothing that does not run when plans are made and their sheets printed", async () => {
    const engines = new Engines();
    const ran = await functionsRun(async () => {
      const { scenario: withOwnTests } = await loadScenario(`${root}examples/after-service/lunch.yaml`);
      for (const scenario of [example("demo"), withOwnTests, scenarioOf(WITH_BEANS)]) {
        if (scenario === null) throw new Error("a scenario has problems");
        const { plan } = await planScenario(scenario, { engines, seconds: 20 });
        renderPages(plan, scenario, {});
      }
    });
    await engines.close();
    const cited = SAFETY_RULES.flatMap(({ acts }) => acts.map(({ file, name }) => `${file} ${name}`));
    expect(cited.filter((each) => !ran.has(each))).toEqual([]);
  });

  it("names every finding that the checks can give, and no other", () => {
    const folder = `${root}src/safety/`;
    const code = readdirSync(folder)
      .filter((file) => file.startsWith("check"))
      .map((file) => readFileSync(`${folder}${file}`, "utf8"))
      .join("\n")
      .replace(/\/\*[\s\S]*?\*\//g, "");
    const given = [...code.matchAll(/"([a-z]+(?:-[a-z]+)+|caution)"/g)].map((match) => match[1] ?? "");
    const known = SAFETY_RULES.flatMap(({ codes }) => codes);
    expect([...new Set(given)].sort()).toEqual([...new Set(known)].sort());
  });

  it("lists every row of hazards with who says so, every place's dates, and what is not judged", () => {
    for (const { id, hazard, rule, authority } of HAZARDS) {
      expect(text.toLowerCase(), id).toContain(id.toLowerCase());
      for (const said of [hazard, rule.text, authority]) expect(text, id).toContain(said);
    }
    for (const code of RULES_OF) expect(text).toContain(DATE_RULES[code].source);
    for (const each of NOT_JUDGED) expect(text).toContain(each);
    expect(text).toContain(DEFERENCE);
  });

  it("says of every row that it remembers that it does", () => {
    const remembered = HAZARDS.filter(({ basis }) => basis === "memory");
    expect(remembered.length).toBeGreaterThan(0);
    for (const { authority, id } of remembered) {
      const said = authority.includes("from memory") ? authority : `${authority}, from memory`;
      expect(text, id).toContain(said);
    }
  });
});
