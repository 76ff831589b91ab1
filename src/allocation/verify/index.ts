import type { Decision, Scenario } from "../../kitchen/index.js";
import { buyingFaults } from "./buying.js";
import { closingFaults, dateFaults, lifeFaults, neverFaults, unitFaults, yieldFaults } from "./closing.js";
import { destinationFaults, keptFaults, takenFaults, wastedPortionFaults } from "./ends.js";
import { inTimeFaults, pieceFaults, workedForUseFaults } from "./flows.js";
import { coldRoomFaults, freezerFaults, handsFaults, potFaults, vesselFaults } from "./limits.js";
import { nameFaults } from "./names.js";
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
