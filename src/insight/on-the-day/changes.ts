import type { PlanChange, PlanJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, toGrams } from "../../quantity/index.js";
import { changesBetween } from "../changes.js";

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
