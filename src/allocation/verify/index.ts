import type { Decision, Scenario } from "../../kitchen/index.js";
import { buyingFaults } from "./buying.js";
import { closingFaults, dateFaults } from "./closing.js";
import { endFaults, limitFaults } from "./limits.js";
import { cookingFaults, lineFaults, portionFaults, serviceFaults } from "./serving.js";

/** One thing a decision does not do that the scenario asks of it, in words with the amount. */
export type Fault = string;

const CHECKS: readonly ((decision: Decision, scenario: Scenario) => Fault[])[] = [
  closingFaults,
  dateFaults,
  lineFaults,
  portionFaults,
  buyingFaults,
  limitFaults,
];

/**
 * Checks a decision in whole portions and milligrams against the scenario alone, without model or engine. Weights
 * close exactly and dates hold exactly; a recipe line may miss by half a step of the scale for each going into it.
 */
export function verifyDecision(decision: Decision, scenario: Scenario): Fault[] {
  return CHECKS.flatMap((check) => check(decision, scenario));
}

/**
 * Checks a decision whose services before this one are done: all of it closes and keeps its dates, with the weights
 * that the done cuts really gave; what services to come ask for is held to the scenario as it now is.
 */
export function verifyAnew(decision: Decision, scenario: Scenario, before: number): Fault[] {
  const isToCome = ({ service }: { readonly service: number }): boolean => service >= before;
  const toCome = {
    ...decision,
    goings: decision.goings.filter(isToCome),
    cookings: decision.cookings.filter(isToCome),
  };
  return [
    ...closingFaults(decision, scenario, before),
    ...dateFaults(decision, scenario),
    ...lineFaults(toCome, scenario),
    ...cookingFaults(decision, scenario),
    ...scenario.services.flatMap((_, service) =>
      service < before ? [] : serviceFaults(service, decision, scenario),
    ),
    ...endFaults(decision, scenario),
  ];
}
