import { type PlanJson, planHash } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { fill, orderWords, writingFor } from "../pages/index.js";
import { grams, ZERO } from "../quantity/index.js";
import { frame } from "./frame.js";

type Figure = string | number;

/** A file of what happened, as it is written. */
interface Happened {
  readonly covers: Record<string, Figure>;
  readonly delivered: Record<string, Figure>;
  readonly cut: Record<string, Record<string, Figure>>;
}

/** One figure that may be written: what it is of, and where it goes. */
interface Field {
  readonly id: string;
  /** What it is of, in words, so that it is never taken for a field of another plan. */
  readonly name: string;
  readonly put: (happened: Happened, figure: Figure) => void;
  readonly label: string;
  readonly planned: string;
}

interface Group {
  readonly title: string;
  readonly fields: readonly Field[];
}

/** What was typed into the form, by the names of its fields. */
export type Typed = ReadonlyMap<string, readonly string[]>;

/** The form of what happened since a plan was kept; what was typed stays, with what is wrong with it. */
export function replanScreen(
  scenario: Scenario,
  kept: PlanJson,
  typed: Typed,
  problems: readonly string[],
): string {
  const written = (name: string): string => typed.get(name)?.[0] ?? "";
  const bought = typed.get("canBuy") ?? [];
  return fill("replan-form", {
    ...frame("On the day", {}),
    plan: planHash(kept),
    problems,
    services: scenario.services.map(({ name }) => ({
      name,
      chosen: written("before") === name ? "chosen" : "",
    })),
    groups: groupsOf(scenario, kept).map(({ title, fields }) => ({
      title,
      open: fields.some(({ name }) => written(name) !== "") ? "open" : "",
      fields: fields.map(({ id, name, label, planned }) => ({
        id,
        name,
        label,
        planned,
        typed: written(name),
      })),
    })),
    canBuy: scenario.items
      .filter(({ buying }) => buying !== null)
      .map(({ name }) => ({ name, chosen: bought.includes(name) ? "chosen" : "" })),
    buyOpen: bought.length > 0 ? "open" : "",
  });
}

/** What was typed, as the text of a file of what happened: JSON is YAML. Figures are read by that file's own rules. */
export function happenedText(scenario: Scenario, kept: PlanJson, typed: Typed): string {
  const happened: Happened = { covers: {}, delivered: {}, cut: {} };
  for (const { name, put } of groupsOf(scenario, kept).flatMap(({ fields }) => fields)) {
    const written = typed.get(name)?.[0] ?? "";
    if (written !== "") put(happened, /^\d{1,9}$/.test(written) ? Number(written) : written);
  }
  const canBuy = typed.get("canBuy") ?? [];
  const bought = canBuy.length === 0 ? {} : { can_buy: canBuy };
  return JSON.stringify({ before: typed.get("before")?.[0] ?? "", ...happened, ...bought });
}

/** What a form holds beside its figures. */
const OTHERS = ["plan", "before", "canBuy", "keep"];

/**
 * What speaks against reading a form: it was opened when another plan was kept, or holds what the form of this one
 * does not; what was written there is said.
 */
export function notOfThisPlan(scenario: Scenario, kept: PlanJson, typed: Typed): string[] {
  const fields = groupsOf(scenario, kept).flatMap((group) => group.fields);
  const known = new Set([...OTHERS, ...fields.map(({ name }) => name)]);
  const strays = [...typed].filter(([name, [written = ""]]) => !known.has(name) && written !== "");
  const isOther = typed.get("plan")?.[0] !== planHash(kept);
  return [
    ...(isOther
      ? [
          "Another plan was kept since this form was opened. What you wrote is still here: look whether it fits this plan, then send it again.",
        ]
      : []),
    ...strays.map(([name, [written = ""]]) => `${name}: the plan kept now has no place for “${written}”.`),
  ];
}

function groupsOf(scenario: Scenario, kept: PlanJson): Group[] {
  const { services, items } = scenario;
  const writing = writingFor(scenario);
  const ordered = items.flatMap(({ name, orderUnit }) => {
    const units = kept.purchases.reduce((sum, each) => sum + (each.item === name ? each.units : 0), 0);
    return units === 0 ? [] : [{ name, words: orderWords(name, units, orderUnit.name, writing) }];
  });
  const groups: Group[] = [
    {
      title: "Covers expected now",
      fields: services.map(({ name, covers }, index) => ({
        id: `covers-${index}`,
        name: `covers: ${name}`,
        put: ({ covers: into }, figure) => {
          into[name] = figure;
        },
        label: name,
        planned: `Planned: ${covers} covers`,
      })),
    },
    {
      title: "What was delivered up to that service",
      fields: ordered.map(({ name, words }, index) => ({
        id: `delivered-${index}`,
        name: `delivered: ${name}`,
        put: ({ delivered }, figure) => {
          delivered[name] = figure;
        },
        label: name,
        planned: `Planned in all: ${words}`,
      })),
    },
    ...services.map(
      ({ name }, service): Group => ({
        title: `What the cuts for ${name} gave`,
        fields: partsCutFor(name, kept).map(([part, weight], index) => ({
          id: `cut-${service}-${index}`,
          name: `cut: ${name}: ${part}`,
          put: ({ cut }, figure) => {
            cut[name] = { ...cut[name], [part]: figure };
          },
          label: part,
          planned: `Planned: ${writing.weight(weight)}. Write the unit too, as 1.2 kg`,
        })),
      }),
    ),
  ];
  return groups.filter(({ fields }) => fields.length > 0);
}

function partsCutFor(service: string, { cuts }: PlanJson) {
  const parts = cuts.filter((cut) => cut.service === service).flatMap((cut) => cut.parts);
  const names = [...new Set(parts.map(({ part }) => part))];
  return names.map((name) => {
    const weight = parts.reduce((sum, each) => (each.part === name ? sum.plus(each.weight) : sum), ZERO);
    return [name, grams(weight)] as const;
  });
}
