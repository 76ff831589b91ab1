import type { Decision, Lot, Scenario } from "../../kitchen/index.js";
import { buyingFaults } from "./buying.js";
import { closingFaults, dateFaults, lifeFaults, neverFaults, unitFaults, yieldFaults } from "./closing.js";
import { destinationFaults, keptFaults, takenFaults, wastedPortionFaults } from "./ends.js";
import { inTimeFaults, pieceFaults, workedForUseFaults } from "./flows.js";
import { coldRoomFaults, freezerFaults, handsFaults, potFaults, vesselFaults } from "./limits.js";
import { cookingFaults, lineFaults, servicesFaults } from "./serving.js";

/** Says what is wrong with a decision in one respect. Services before `from` are done. */
type Check = (decision: Decision, scenario: Scenario, from: number) => string[];

/** Every check of a plan. The table in tests/allocation/rules has the rules that each is for. */
export const CHECKS = {
  names: nameFaults,
  closing: closingFaults,
  yields: yieldFaults,
  units: unitFaults,
  "item life": lifeFaults,
  dates: dateFaults,
  never: neverFaults,
  pieces: (decision, scenario, from) => pieceFaults(since(from, decision), scenario),
  "in time": inTimeFaults,
  "worked for use": workedForUseFaults,
  lines: (decision, scenario, from) => lineFaults(since(from, decision), scenario),
  cookings: cookingFaults,
  services: servicesFaults,
  "wasted portions": wastedPortionFaults,
  takes: takenFaults,
  destinations: destinationFaults,
  kept: keptFaults,
  buying: buyingFaults,
  pots: potFaults,
  hands: handsFaults,
  vessels: vesselFaults,
  "cold room": coldRoomFaults,
  freezer: freezerFaults,
} satisfies Readonly<Record<string, Check>>;

/** Checks that what was done before the rest of a plan was planned need not pass, as it came otherwise than planned. */
const OF_WHOLE_PLANS: ReadonlySet<string> = new Set<keyof typeof CHECKS>([
  ...(["units", "in time", "worked for use", "wasted portions", "buying", "pots"] as const),
  ...(["hands", "vessels", "cold room", "freezer"] as const),
]);

/**
 * Checks a decision in whole portions and milligrams against the scenario alone, without model or engine. Weights
 * close exactly and dates hold exactly; a recipe line may miss by half a step of the scale for each going into it.
 */
export function verifyDecision(decision: Decision, scenario: Scenario): string[] {
  return Object.values<Check>(CHECKS).flatMap((check) => check(decision, scenario, 0));
}

/**
 * Checks a decision whose services before this one are done: all of it closes and keeps its dates, with the weights
 * that the done cuts really gave; what services to come ask for is held to the scenario as it now is.
 */
export function verifyAnew(decision: Decision, scenario: Scenario, before: number): string[] {
  return Object.entries<Check>(CHECKS).flatMap(([name, check]) =>
    OF_WHOLE_PLANS.has(name) ? [] : check(decision, scenario, before),
  );
}

function since(from: number, decision: Decision): Decision {
  const isToCome = ({ service }: { readonly service: number }): boolean => service >= from;
  return {
    ...decision,
    preps: decision.preps.filter(isToCome),
    goings: decision.goings.filter(isToCome),
    cookings: decision.cookings.filter(isToCome),
  };
}

/** Everything that a decision names is in the scenario: items, cuts, steps, parts, dishes, lines, services and ends. */
function nameFaults(decision: Decision, scenario: Scenario): string[] {
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
