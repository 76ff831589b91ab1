import type { Decision, Lot, Scenario } from "../../kitchen/index.js";

/** Everything that a decision names is in the scenario: items, cuts, steps, parts, dishes, lines, services and ends. */
export function nameFaults(decision: Decision, scenario: Scenario): string[] {
  const { purchases, cuts, binned, keptItems, preps, goings, cookings, sends, kept } = decision;
  const items = new Map(scenario.items.map((item) => [item.name, item]));
  const parts = new Set(scenario.parts.map(({ name }) => name));
  const steps = new Map(scenario.steps.map((step) => [step.name, step]));
  const dishes = new Map(scenario.dishes.map((dish) => [dish.name, dish]));
  const destinations = new Set(scenario.destinations.map(({ name }) => name));
  const origins = ({ origin }: Lot): boolean =>
    origin.kind === "cut" || scenario.partsOnHand[origin.index] !== undefined;
  const services = [
    ...[...purchases, ...cuts, ...binned, ...keptItems, ...preps, ...goings, ...cookings].map(
      ({ service }) => service,
    ),
    ...cookings.flatMap(({ served }) => served.map(({ service }) => service)),
  ];
  const lots = [...preps.map(({ from }) => from), ...[...goings, ...sends, ...kept].map(({ lot }) => lot)];
  const given = [...cuts, ...preps].flatMap((made) => made.parts.map(({ part }) => part));
  return [
    ...[...purchases, ...cuts, ...binned, ...keptItems]
      .filter(({ item }) => !items.has(item))
      .map(({ item }) => `${item} is no item of the scenario`),
    ...cuts
      .filter(({ item, breakdown }) => items.get(item)?.breakdowns.every(({ name }) => name !== breakdown))
      .map(({ item, breakdown }) => `${breakdown} is no way to cut ${item}`),
    ...preps.filter(({ step }) => !steps.has(step)).map(({ step }) => `${step} is no step of the scenario`),
    ...preps
      .filter(({ step, from }) => steps.get(step)?.from.includes(from.part) === false)
      .map(({ step, from }) => `${step} does not take ${from.part}`),
    ...cookings
      .filter(({ dish }) => !dishes.has(dish))
      .map(({ dish }) => `${dish} is no dish of the scenario`),
    ...goings
      .filter(({ dish, line }) => dishes.has(dish) && dishes.get(dish)?.lines[line] === undefined)
      .map(({ dish, line }) => `${dish} has no line number ${line + 1}`),
    ...[...sends, ...cookings.flatMap(({ spare }) => spare)]
      .filter(({ destination }) => !destinations.has(destination))
      .map(({ destination }) => `${destination} is no destination of the scenario`),
    ...[...lots.map(({ part }) => part), ...given]
      .filter((part) => !parts.has(part))
      .map((part) => `${part} is no part of the scenario`),
    ...lots.filter((lot) => !origins(lot)).map(({ part }) => `${part} is of stock that is not on hand`),
    ...services
      .filter((service) => scenario.services[service] === undefined)
      .map((service) => `there is no service number ${service + 1}`),
  ];
}
