import type { Decision, Scenario } from "../../kitchen/index.js";
import { closingFaults, dateFaults } from "./closing.js";
import { limitFaults } from "./limits.js";
import { lineFaults, portionFaults } from "./serving.js";

/** One thing a decision does not do that the scenario asks of it, in words with the amount. */
export type Fault = string;

const CHECKS: readonly ((decision: Decision, scenario: Scenario) => Fault[])[] = [
  closingFaults,
  dateFaults,
  lineFaults,
  portionFaults,
  limitFaults,
];

/**
 * Checks a decision in whole portions and milligrams against the scenario alone, without model or engine. Weights
 * close exactly and dates hold exactly; a recipe line may miss by half a step of the scale for each going into it.
 */
export function verifyDecision(decision: Decision, scenario: Scenario): Fault[] {
  return CHECKS.flatMap((check) => check(decision, scenario));
}
