import { buyingFaults } from "./buying.js";
import { endFaults } from "./ends.js";
import { houseFaults } from "./house.js";
import type { PrintedPlan } from "./printed.js";
import { recipeFaults } from "./recipes.js";
import { servingFaults } from "./serving.js";

/** Every limit that the plan was asked to keep, each held to what is found of the plan itself. */
export function limitFaults(plan: PrintedPlan): string[] {
  return [
    ...buyingFaults(plan),
    ...recipeFaults(plan),
    ...servingFaults(plan),
    ...houseFaults(plan),
    ...endFaults(plan),
  ];
}
