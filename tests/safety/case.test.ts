import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { RULES_OF } from "../../src/kitchen/index.js";
import { safetyCasePage } from "../../src/pages/index.js";
import { DATE_RULES, DEFERENCE, HAZARDS, NOT_JUDGED, SAFETY_RULES } from "../../src/safety/index.js";

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
