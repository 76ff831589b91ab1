import type { PlanJson } from "../contract/index.js";
import type { Handling, Item, Scenario } from "../kitchen/index.js";
import { grams, total, type Weight } from "../quantity/index.js";
import { type Flow, printedFlows } from "./printed.js";
import { once, type Writing, writingFor } from "./writing.js";

/** What every page is made from: the plan, its scenario, how figures are written, and the weights as printed. */
export interface View {
  readonly plan: PlanJson;
  readonly scenario: Scenario;
  readonly writing: Writing;
  /** The plan's transfers of weight in whole steps of the scale; pages add up these and nothing else. */
  readonly flows: readonly Flow[];
}

export function viewOf(plan: PlanJson, scenario: Scenario): View {
  return {
    plan,
    scenario,
    writing: writingFor(scenario),
    flows: printedFlows(plan.transfers, scenario.scaleStep),
  };
}

/** An account of the ledger, taken apart: "dish:Soup @ Friday dinner" is a dish, Soup, at Friday dinner. */
export interface AccountName {
  readonly kind: string;
  readonly name: string;
  readonly service: string;
}

export function accountName(account: string, scenario: Scenario): AccountName {
  const colon = account.indexOf(":");
  if (colon < 0) return { kind: account, name: "", service: "" };
  const kind = account.slice(0, colon);
  const name = account.slice(colon + 1);
  if (kind !== "dish") return { kind, name, service: "" };
  const service = scenario.services.find((each) => name.endsWith(` @ ${each.name}`))?.name ?? "";
  return { kind, name: service === "" ? name : name.slice(0, -(service.length + 3)), service };
}

/** Sum of the printed flows that `matches` picks. */
export function flowTotal(view: View, matches: (flow: Flow) => boolean): Weight {
  return total(view.flows.filter(matches).map(({ weight }) => weight));
}

export function isKind(account: string, ...kinds: readonly string[]): boolean {
  return kinds.includes(account.split(":", 1)[0] ?? "");
}

/** The items a part was cut from, through every further breakdown, in the scenario's order. */
export function itemsOf(partName: string, scenario: Scenario): Item[] {
  const names = new Set<string>();
  const seen = new Set<string>();
  const visit = (name: string): void => {
    if (seen.has(name)) return;
    seen.add(name);
    const item = scenario.parts.find((part) => part.name === name)?.item ?? null;
    if (item !== null) names.add(item);
    for (const each of scenario.items)
      if (each.breakdowns.some(({ yields }) => yields.some(({ part }) => part === name)))
        names.add(each.name);
    for (const step of scenario.steps)
      if (step.yields.some(({ part }) => part === name)) step.from.forEach(visit);
  };
  visit(partName);
  return scenario.items.filter(({ name }) => names.has(name));
}

/** Order of work on the boards: what may touch ready-to-eat food first, what may touch nothing else last. */
export const BOARD_ORDER: readonly Handling[] = ["plant", "egg", "fish", "meat", "poultry"];

export function rawest(items: readonly Item[]): Handling {
  const ranks = items.map(({ handling }) => BOARD_ORDER.indexOf(handling));
  return BOARD_ORDER[Math.max(0, ...ranks)] ?? "plant";
}

/** "squash ring" of the squash is "ring": the name where the item is already named. */
export function shortName(part: string, item: string | null): string {
  return item !== null && part.startsWith(`${item} `) ? part.slice(item.length + 1) : part;
}

export type Warning = {
  readonly text: string;
  readonly source: string;
};

/** Warnings about any of these dishes or parts, or about nothing in particular, which concern everyone. */
export function warningsAbout(subjects: Subjects, { plan }: View): Warning[] {
  return plan.warnings
    .filter(
      ({ dish, part }) =>
        (dish === null && part === null) ||
        (dish !== null && subjects.dishes.includes(dish)) ||
        (part !== null && subjects.parts.includes(part)),
    )
    .map(({ text, source }) => ({ text, source }));
}

interface Subjects {
  readonly dishes: readonly string[];
  readonly parts: readonly string[];
}

/** The services the plan speaks of, "Friday dinner to Saturday dinner". */
export function servicesText({ services }: Scenario): string {
  const names = once(services.map(({ name }) => name));
  return names.length < 2 ? names.join("") : `${names[0] ?? ""} to ${names.at(-1) ?? ""}`;
}

export function datesText({ services }: Scenario, writing: Writing): string {
  const first = services[0]?.date;
  const last = services.at(-1)?.date;
  if (first === undefined || last === undefined) return "";
  return first === last ? writing.date(first) : writing.dates(first, last);
}

/** A weight of the plan's JSON. */
export function planWeight(text: string): Weight {
  return grams(text);
}
