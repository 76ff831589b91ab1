import {
  type Destination,
  type Dish,
  type Item,
  isBinFor,
  type Part,
  type PartClass,
  type Scenario,
} from "../kitchen/index.js";
import { LedgerError } from "./errors.js";

/** Where waste goes in a scenario whose destinations do not take it. */
export const REFUSE: Destination = {
  name: "refuse",
  kind: "waste",
  end: "waste",
  takes: { food: true, inedible: true, portions: true },
  limit: null,
};

/** The first destination for waste that takes the class; one without a limit before those that have one. */
export function binFor(kind: PartClass, { destinations }: Scenario): Destination {
  const bins = destinations.filter((destination) => isBinFor(kind, destination));
  return bins.find(({ limit }) => limit === null) ?? bins[0] ?? REFUSE;
}

/** A scenario's nouns by name. A name that the scenario does not hold is a LedgerError. */
export interface Directory {
  readonly scenario: Scenario;
  item(name: string): Item;
  dish(name: string): Dish;
  part(name: string): Part;
  classOf(part: string): PartClass;
  destination(name: string): Destination;
  serviceName(index: number): string;
}

export function directoryOf(scenario: Scenario): Directory {
  const items = byName(scenario.items);
  const dishes = byName(scenario.dishes);
  const parts = byName(scenario.parts);
  const destinations = byName([REFUSE, ...scenario.destinations]);
  const part = (name: string): Part => known(parts.get(name), "part", name);
  return {
    scenario,
    item: (name) => known(items.get(name), "item", name),
    dish: (name) => known(dishes.get(name), "dish", name),
    part,
    classOf: (name) => part(name).class,
    destination: (name) => known(destinations.get(name), "destination", name),
    serviceName: (index) => known(scenario.services[index], "service", `number ${index}`).name,
  };
}

function byName<T extends { readonly name: string }>(nouns: readonly T[]): Map<string, T> {
  return new Map(nouns.map((noun) => [noun.name, noun]));
}

function known<T>(noun: T | undefined, kind: string, name: string): T {
  if (noun === undefined)
    throw new LedgerError(`the decision names the ${kind} "${name}", which is not in the scenario`);
  return noun;
}
