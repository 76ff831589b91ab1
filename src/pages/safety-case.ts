import { RULES_OF } from "../kitchen/index.js";
import {
  allergenLists,
  DEFAULT_RULES,
  DEFERENCE,
  dateRule,
  type Hazard,
  hazards,
  holdingLines,
  holdingRules,
  NOT_JUDGED,
  SAFETY_RULES,
} from "../safety/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { capital } from "./writing.js";

/** Every rule of safety, where it acts, what tests it and who says so; made from the tables the program goes by. */
export function safetyCasePage(options: DocumentOptions): Page {
  return documentPage("safety-case", "The safety case", safetyCaseData(), options);
}

const KINDS = [
  ["never", "Never food: refused, with no override"],
  ["only if", "Food only after a treatment, which the dish must declare"],
  ["warn", "Food with a caution, which is printed"],
] as const;

export function safetyCaseData() {
  return {
    deference: DEFERENCE,
    rules: SAFETY_RULES.map(({ id, rule, acts, tests, source }) => ({
      id,
      rule,
      acts: acts.map(({ file, name }) => `${name} in src/${file}`),
      tests: tests.map((file) => `tests/${file}`),
      source,
    })),
    places: RULES_OF.map((code) => ({
      code: code === DEFAULT_RULES ? `${code}, where a scenario does not say` : code,
      name: holdingRules(code).name,
      days: `${dateRule(code).days} days, the day of preparation being day 1, held at ${dateRule(code).heldAtMost.celsius} C (${dateRule(code).heldAtMost.fahrenheit} F) or less, ${dateRule(code).from}`,
      source: dateRule(code).source,
      limits: holdingLines(code),
    })),
    lists: allergenLists().map(({ name, allergens, source }) => ({
      name,
      allergens: allergens.join(", "),
      source,
    })),
    hazards: KINDS.map(([kind, title]) => {
      const rows = hazards().filter(({ rule }) => rule.kind === kind);
      return { title, count: String(rows.length), rows: rows.map(hazardRow) };
    }),
    notJudged: NOT_JUDGED,
  };
}

function hazardRow({ id, hazard, rule, vulnerable, authority, basis }: Hazard) {
  const remembered =
    basis === "memory" && !authority.includes("from memory") ? `${authority}, from memory` : authority;
  return {
    id: capital(id),
    hazard,
    rule: rule.text,
    vulnerable: vulnerable?.text ?? "",
    authority: remembered,
  };
}
