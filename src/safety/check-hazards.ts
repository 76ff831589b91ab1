import type { Dish, Item, Part, Scenario } from "../kitchen/index.js";
import type { SafetyBlock, Warning } from "./findings.js";
import { hazardsOf } from "./hazards/match.js";
import type { Hazard, Rule } from "./hazards/types.js";
import { type Lineage, lineageOf } from "./lineage.js";
import { isTreated } from "./treatments.js";

/** A step of a dish that makes a part safe, to be printed as critical. */
export interface CriticalStep {
  readonly part: string;
  readonly text: string;
  readonly source: string;
  /** As the dish declares it; empty where it does not yet. */
  readonly declared: readonly string[];
}

/** Parts and staples that are never food and are used as food here; a part classed "never" counts as such. */
export function neverFood(scenario: Scenario, lineage: Lineage): SafetyBlock[] {
  const parts = scenario.parts.flatMap((part) => {
    const uses = usesOf(scenario, lineage, part);
    if (uses.length === 0) return [];
    const dish = dishesWith(scenario, part.name)[0] ?? null;
    const hazards = ruled(scenario, hazardsOfPart(part, lineage.itemsOf(part)), "never");
    if (hazards.length === 0 && part.class === "never") return classedNever(part, uses, dish);
    return hazards.map((hazard) =>
      finding(
        scenario,
        "never-food",
        hazard,
        `${part.name} must not be eaten (${uses.join(", ")})`,
        part.name,
        dish,
      ),
    );
  });
  const staples = eachStaple(scenario).flatMap(({ name, dish }) =>
    ruled(scenario, hazardsOf("", name), "never").map((hazard) =>
      finding(
        scenario,
        "never-food",
        hazard,
        `${name} must not be eaten (a staple of ${dish.name})`,
        name,
        dish.name,
      ),
    ),
  );
  return [...parts, ...staples];
}

function classedNever(part: Part, uses: readonly string[], dish: string | null): SafetyBlock[] {
  const source = "the class given to it by the yield tables or by this kitchen";
  const text = `${part.name} must not be eaten (${uses.join(", ")}): it is classed as never food. Leave it out. Source: ${source}.`;
  return uses.every((use) => use === "on hand")
    ? []
    : [{ code: "never-food", text, source, part: part.name, dish }];
}

/** Dishes that use a part which is food only after a treatment they do not declare. */
export function untreated(scenario: Scenario, lineage: Lineage): SafetyBlock[] {
  return scenario.dishes.flatMap((dish) =>
    demands(scenario, lineage, dish).flatMap(({ name, hazard, rule }) => {
      if (rule.treatments.some((treatment) => isTreated(dish.treatments, treatment))) return [];
      const wanted = rule.treatments.map((treatment) => `"${treatment}"`).join(" or ");
      const what = `${dish.name} uses ${name}, which is food only after a treatment; the dish must declare ${wanted}`;
      return finding(scenario, "treatment-needed", hazard, what, name, dish.name);
    }),
  );
}

/** The treatments a dish depends on, for its sheet. */
export function criticalSteps(scenario: Scenario, dish: Dish): CriticalStep[] {
  return demands(scenario, lineageOf(scenario), dish).map(({ name, hazard, rule }) => ({
    part: name,
    text: `${rule.text} (${hazard.hazard})`,
    source: sourceOf(hazard),
    declared: dish.treatments,
  }));
}

/** One caution for each row of the table that speaks of something here used as food. */
export function cautions(scenario: Scenario, lineage: Lineage): Warning[] {
  const named = new Map<Hazard, Set<string>>();
  const note = (name: string, hazards: readonly Hazard[]) => {
    for (const hazard of hazards) {
      if (ruleFor(scenario, hazard).kind === "never") continue;
      named.set(hazard, (named.get(hazard) ?? new Set()).add(name));
    }
  };
  for (const part of scenario.parts) {
    if (usesOf(scenario, lineage, part).length > 0)
      note(part.name, hazardsOfPart(part, lineage.itemsOf(part)));
  }
  for (const { name } of eachStaple(scenario)) note(name, hazardsOf("", name));
  return [...named].map(([hazard, names]) => {
    const code = ruleFor(scenario, hazard).kind === "only if" ? "critical-step" : "caution";
    return finding(scenario, code, hazard, [...names].join(", "), [...names][0] ?? null, null);
  });
}

interface Demand {
  readonly name: string;
  readonly hazard: Hazard;
  readonly rule: Extract<Rule, { kind: "only if" }>;
}

/** Every treatment a dish depends on: by its parts, by what they are made of, and by its staples. */
function demands(scenario: Scenario, lineage: Lineage, dish: Dish): Demand[] {
  const found = new Map<string, Demand>();
  const add = (name: string, hazard: Hazard) => {
    const rule = ruleFor(scenario, hazard);
    const index = `${name}\n${hazard.id}`;
    if (rule.kind === "only if" && !found.has(index)) found.set(index, { name, hazard, rule });
  };
  for (const { part: name } of dish.lines.flatMap(({ from }) => from)) {
    const hazards = lineage.withSources(name).flatMap((part) => hazardsOfPart(part, lineage.itemsOf(part)));
    for (const hazard of hazards) add(name, hazard);
  }
  for (const { name } of dish.staples) for (const hazard of hazardsOf("", name)) add(name, hazard);
  return [...found.values()];
}

/** What makes a part count as food: its class, a dish, a step that ends in food, stock on hand, a later use. */
function usesOf(scenario: Scenario, lineage: Lineage, part: Part): string[] {
  const step = scenario.steps.find(({ from }) => from.includes(part.name));
  return [
    ...(part.class === "food" ? ["classed as food"] : []),
    ...dishesWith(scenario, part.name).map((dish) => `in ${dish}`),
    ...(step !== undefined && lineage.becomesFood(part.name) ? [`made into food by "${step.name}"`] : []),
    ...(scenario.partsOnHand.some((entry) => entry.part === part.name) ? ["on hand"] : []),
    ...(part.carry === null ? [] : [`kept for ${part.carry.use}`]),
  ];
}

/** Dishes that have a line which may take the part. */
export function dishesWith(scenario: Scenario, partName: string): string[] {
  return scenario.dishes
    .filter(({ lines }) => lines.some(({ from }) => from.some(({ part }) => part === partName)))
    .map(({ name }) => name);
}

function eachStaple(scenario: Scenario): { name: string; dish: Dish }[] {
  return scenario.dishes.flatMap((dish) => dish.staples.map(({ name }) => ({ name, dish })));
}

/** By the name of what the part is cut from, and by that of every form it is bought in. */
function hazardsOfPart(part: Part, forms: readonly Item[]): Hazard[] {
  if (forms.length === 0) return hazardsOf(part.item ?? "", part.name);
  const found = forms.flatMap(({ name, of, form }) => {
    const canned = /\b(canned|tinned|jarred)\b/i.test(form) ? ` ${form}` : "";
    const asBought = part.name.startsWith(`${of} `) ? `${name}${part.name.slice(of.length)}` : part.name;
    const named = hazardsOf(of, `${part.name}${canned}`);
    return name === of ? named : [...named, ...hazardsOf(name, `${asBought}${canned}`)];
  });
  return [...new Set(found)];
}

function ruleFor(scenario: Scenario, hazard: Hazard): Rule {
  return (scenario.vulnerableDiners ? hazard.vulnerable : undefined) ?? hazard.rule;
}

function ruled(scenario: Scenario, hazards: readonly Hazard[], kind: Rule["kind"]): Hazard[] {
  return hazards.filter((hazard) => ruleFor(scenario, hazard).kind === kind);
}

function sourceOf({ authority, basis }: Hazard): string {
  return basis === "memory" && !authority.includes("from memory") ? `${authority}, from memory` : authority;
}

function finding(
  scenario: Scenario,
  code: string,
  hazard: Hazard,
  what: string,
  part: string | null,
  dish: string | null,
): SafetyBlock {
  const source = sourceOf(hazard);
  return {
    code,
    text: `${what}: ${hazard.hazard}. ${ruleFor(scenario, hazard).text} Source: ${source}.`,
    source,
    part,
    dish,
  };
}
