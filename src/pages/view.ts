import { accountsOf, decodePlan, type Plan, type PlanAccount, type PlanJson } from "../contract/index.js";
import type { Handling, Item, Scenario } from "../kitchen/index.js";
import { type Movements, movementsOf } from "./movements.js";
import { once, type Writing, writingFor } from "./writing.js";

/** What every page is made from: the plan, its scenario, how figures are written, and the weights as printed. */
export interface View {
  readonly plan: Plan;
  /** The same as JSON, as weigh-ins take it. */
  readonly json: PlanJson;
  readonly scenario: Scenario;
  readonly writing: Writing;
  readonly movements: Movements;
  /** An account of the movements, taken apart. */
  readonly accountOf: (id: string) => PlanAccount;
}

export function viewOf(json: PlanJson, scenario: Scenario): View {
  const plan = decodePlan(json);
  return {
    plan,
    json,
    scenario,
    writing: writingFor(scenario),
    movements: movementsOf(plan, scenario.scaleStep),
    accountOf: accountsOf(plan),
  };
}

export function isKind(account: string, ...kinds: readonly string[]): boolean {
  return kinds.includes(account.split(":", 1)[0] ?? "");
}

/** An account as it is said where its kind must be heard: "compost, wasted food". */
export function endWords({ kind, name }: PlanAccount): string {
  switch (kind) {
    case "givenAway":
      return `${name}, given away`;
    case "wastedFood":
      return `${name}, wasted food`;
    case "inedible":
      return `${name}, inedible`;
    case "closingStock":
      return "closing stock";
    case "loss":
      return `${name} loss`;
    case "onHand":
      return "in the house";
    case "water":
      return "water taken up";
    default:
      return name;
  }
}

/**
 * The items a part may be cut from, through every further breakdown, in the scenario's order; of one that is only
 * on hand, every form of what it is named after.
 */
export function itemsOf(partName: string, scenario: Scenario): Item[] {
  const names = new Set<string>();
  const seen = new Set<string>();
  const visit = (name: string): void => {
    if (seen.has(name)) return;
    seen.add(name);
    for (const each of scenario.items)
      if (each.breakdowns.some(({ yields }) => yields.some(({ part }) => part === name)))
        names.add(each.name);
    for (const step of scenario.steps)
      if (step.yields.some(({ part }) => part === name)) step.from.forEach(visit);
  };
  visit(partName);
  if (names.size > 0) return scenario.items.filter(({ name }) => names.has(name));
  const of = scenario.parts.find(({ name }) => name === partName)?.item ?? null;
  return scenario.items.filter((item) => item.of === of);
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

/** The plan's warnings but for those about dishes not cooked and parts that nothing gives. */
export function warningsOf({ plan }: View): Warning[] {
  const cooked = new Set(plan.dishes.map(({ dish }) => dish));
  const present = new Set([
    ...[...plan.cuts, ...plan.preps].flatMap(({ parts }) => parts.map(({ part }) => part)),
    ...plan.onHand.map(({ name }) => name),
    ...plan.goings.map(({ part }) => part),
  ]);
  return plan.warnings
    .filter(({ dish, part }) => (dish === null ? part === null || present.has(part) : cooked.has(dish)))
    .map(printedWarning);
}

/** Warnings about any of these dishes or parts, or about nothing in particular, which concern everyone. */
export function warningsAbout({ dishes, parts }: Subjects, { plan }: View): Warning[] {
  return plan.warnings
    .filter(({ dish, part }) =>
      dish === null ? part === null || parts.includes(part) : dishes.includes(dish),
    )
    .map(printedWarning);
}

/** A source that the text already names is not said twice. */
export function printedWarning({ text, source }: PlanJson["warnings"][number]): Warning {
  return { text, source: text.includes(source) ? "" : source };
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
