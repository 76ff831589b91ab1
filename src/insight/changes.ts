import type { PlanChange, PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { Decimal, toGrams } from "../quantity/index.js";

/** Something counted in a plan: so many of it at one service. */
interface Count {
  readonly kind: PlanChange["kind"];
  readonly name: string;
  readonly breakdown: string | null;
  readonly service: string;
  readonly unit: string;
  readonly amount: Decimal;
}

/**
 * What one plan does otherwise than another: purchases, cuts, portions of dishes and what is kept, in sums over all
 * services; and by service where only the days differ.
 */
export function changesBetween(before: PlanJson, after: PlanJson, scenario: Scenario): PlanChange[] {
  const counts = [countsOf(before, scenario), countsOf(after, scenario)] as const;
  const keyOf = ({ kind, name, breakdown }: Count): string => JSON.stringify([kind, name, breakdown]);
  const subjects = [...new Map(counts.flat().map((count) => [keyOf(count), count])).values()];
  const kinds: readonly PlanChange["kind"][] = ["buy", "cut", "dish", "keep"];
  return kinds
    .flatMap((kind) => subjects.filter((subject) => subject.kind === kind))
    .flatMap((subject) => {
      const [had, has] = counts.map((all) => all.filter((count) => keyOf(count) === keyOf(subject))) as [
        Count[],
        Count[],
      ];
      const inAll = changeOf(subject, null, had, has);
      if (inAll !== null) return [inAll];
      return scenario.services.flatMap(({ name }) => {
        const at = (all: Count[]): Count[] => all.filter(({ service }) => service === name);
        return changeOf(subject, name, at(had), at(has)) ?? [];
      });
    });
}

function changeOf(
  { kind, name, breakdown, unit }: Count,
  service: string | null,
  had: readonly Count[],
  has: readonly Count[],
): PlanChange | null {
  const before = sumOf(had);
  const after = sumOf(has);
  if (before.equals(after)) return null;
  return { kind, name, breakdown, service, unit, before: before.toFixed(), after: after.toFixed() };
}

function sumOf(counts: readonly Count[]): Decimal {
  return counts.reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
}

function countsOf(plan: PlanJson, scenario: Scenario): Count[] {
  const unitOf = (item: string): string =>
    scenario.items.find(({ name }) => name === item)?.unitName ?? "unit";
  return [
    ...plan.purchases.map(({ item, service, units, orderUnit }) => ({
      ...{ kind: "buy" as const, name: item, breakdown: null, service, unit: orderUnit },
      amount: new Decimal(units),
    })),
    ...plan.cuts.map(({ item, breakdown, service, units, weight }) => ({
      ...{ kind: "cut" as const, name: item, breakdown, service },
      unit: units === null ? "g" : unitOf(item),
      amount: units === null ? new Decimal(weight) : new Decimal(units),
    })),
    ...plan.dishes.map(({ dish, service, portions }) => ({
      ...{ kind: "dish" as const, name: dish, breakdown: null, service, unit: "portion" },
      amount: new Decimal(portions),
    })),
    ...plan.leftovers
      .filter(({ end }) => end === "kept")
      .map(({ part, weight }) => ({
        ...{ kind: "keep" as const, name: part, breakdown: null, service: "", unit: "g" },
        amount: new Decimal(weight),
      })),
  ];
}

/** Grams of a part that go into a dish at a service, before and after. */
export interface GoingChange {
  readonly part: string;
  readonly dish: string;
  readonly service: string;
  readonly before: Decimal;
  readonly after: Decimal;
}

/** What is done otherwise from a service on. */
export interface ChangesFrom {
  readonly plan: readonly PlanChange[];
  /** Differences of a step of the scale and more. */
  readonly goings: readonly GoingChange[];
}

/** What one plan does otherwise than another from one of the scenario's services on. */
export function changesFrom(
  first: number,
  before: PlanJson,
  after: PlanJson,
  scenario: Scenario,
): ChangesFrom {
  const services = scenario.services.slice(first).map(({ name }) => name);
  return {
    plan: changesBetween(onlyAt(services, before), onlyAt(services, after), scenario),
    goings: goingChanges(services, before, after, toGrams(scenario.scaleStep)),
  };
}

function onlyAt(services: readonly string[], plan: PlanJson): PlanJson {
  const isThere = ({ service }: { readonly service: string }): boolean => services.includes(service);
  return {
    ...plan,
    purchases: plan.purchases.filter(isThere),
    cuts: plan.cuts.filter(isThere),
    dishes: plan.dishes.filter(isThere),
  };
}

function goingChanges(
  services: readonly string[],
  before: PlanJson,
  after: PlanJson,
  step: Decimal,
): GoingChange[] {
  const changes = new Map<string, GoingChange>();
  for (const [when, plan] of [
    ["before", before],
    ["after", after],
  ] as const) {
    for (const { part, dish, service, weight } of plan.goings) {
      const key = JSON.stringify([service, dish, part]);
      const none = { part, dish, service, before: new Decimal(0), after: new Decimal(0) };
      const known = changes.get(key) ?? none;
      changes.set(key, { ...known, [when]: known[when].plus(weight) });
    }
  }
  return services.flatMap((name) =>
    [...changes.values()].filter(
      (change) => change.service === name && change.after.minus(change.before).abs().gte(step),
    ),
  );
}
