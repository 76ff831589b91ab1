import type { Decision, Dish, Item, Part, Scenario, Service, Step } from "../../../src/kitchen/index.js";
import type { Asked } from "./good-plan.js";

export type Change = (asked: Asked) => Asked;

/** A change of the plan. */
export function plan(change: (decision: Decision) => Partial<Decision>): Change {
  return ({ scenario, decision }) => ({ scenario, decision: { ...decision, ...change(decision) } });
}

/** A change of what is asked. */
export function asked(change: (scenario: Scenario) => Partial<Scenario>): Change {
  return ({ scenario, decision }) => ({ decision, scenario: { ...scenario, ...change(scenario) } });
}

/** One change after another. */
export function both(...changes: readonly Change[]): Change {
  return (good) => changes.reduce((sofar, change) => change(sofar), good);
}

/** The entries for which a property has a value, changed; it must hold some. */
export function where<T, K extends keyof T>(
  list: readonly T[],
  key: K,
  value: T[K],
  change: (entry: T) => Partial<T>,
): T[] {
  if (!list.some((entry) => entry[key] === value)) throw new RangeError(`nothing is called ${value}`);
  return list.map((entry) => (entry[key] === value ? { ...entry, ...change(entry) } : entry));
}

export const part = (name: string, change: Partial<Part>): Change =>
  asked(({ parts }) => ({ parts: where(parts, "name", name, () => change) }));
export const step = (name: string, change: Partial<Step>): Change =>
  asked(({ steps }) => ({ steps: where(steps, "name", name, () => change) }));
export const item = (name: string, change: (item: Item) => Partial<Item>): Change =>
  asked(({ items }) => ({ items: where(items, "name", name, change) }));
export const dish = (name: string, change: (dish: Dish) => Partial<Dish>): Change =>
  asked(({ dishes }) => ({ dishes: where(dishes, "name", name, change) }));
export const line = (name: string, index: number, change: Partial<Dish["lines"][number]>): Change =>
  dish(name, ({ lines }) => ({
    lines: lines.map((one, at) => (at === index ? { ...one, ...change } : one)),
  }));
export const service = (name: string, change: (service: Service) => Partial<Service>): Change =>
  asked(({ services }) => ({ services: where(services, "name", name, change) }));
export const course = (name: string, change: Partial<Service["courses"][number]>): Change =>
  service(name, ({ courses }) => ({ courses: courses.map((one) => ({ ...one, ...change })) }));
export const limits = (change: Partial<Scenario["limits"]>): Change =>
  asked((scenario) => ({ limits: { ...scenario.limits, ...change } }));
export const destination = (name: string, change: Partial<Scenario["destinations"][number]>): Change =>
  asked(({ destinations }) => ({ destinations: where(destinations, "name", name, () => change) }));
export const buying = (name: string, change: Partial<NonNullable<Item["buying"]>>): Change =>
  item(name, ({ buying: stated }) => ({ buying: stated === null ? null : { ...stated, ...change } }));

export const purchase = (of: string, change: Partial<Decision["purchases"][number]>): Change =>
  plan(({ purchases }) => ({ purchases: where(purchases, "item", of, () => change) }));
export const cut = (
  of: string,
  change: (cut: Decision["cuts"][number]) => Partial<Decision["cuts"][number]>,
): Change => plan(({ cuts }) => ({ cuts: where(cuts, "item", of, change) }));
export const prep = (
  of: string,
  change: (prep: Decision["preps"][number]) => Partial<Decision["preps"][number]>,
): Change => plan(({ preps }) => ({ preps: where(preps, "step", of, change) }));
export const cooking = (
  of: string,
  change: (cooking: Decision["cookings"][number]) => Partial<Decision["cookings"][number]>,
): Change => plan(({ cookings }) => ({ cookings: where(cookings, "dish", of, change) }));
export const goings = (
  into: string,
  change: (going: Decision["goings"][number]) => Partial<Decision["goings"][number]>,
): Change => plan((decision) => ({ goings: where(decision.goings, "dish", into, change) }));
export const sent = (
  of: string,
  change: (send: Decision["sends"][number]) => Partial<Decision["sends"][number]>,
): Change =>
  plan(({ sends }) => ({
    sends: sends.map((send) => (send.lot.part === of ? { ...send, ...change(send) } : send)),
  }));
