import { join } from "node:path";

/** The kitchen's own yield tests, in the folder of its scenarios. */
export function yieldTestsFile(folder: string): string {
  return join(folder, YIELD_TESTS);
}

/** The plan as kept, beside its scenario: "friday.plan.json" of "friday.yaml". */
export function planFile(scenarioFile: string): string {
  return `${withoutEnding(scenarioFile)}.plan.json`;
}

/** What was weighed after service, beside the scenario: "friday.weigh-in.csv" of "friday.yaml". */
export function weighInFile(scenarioFile: string): string {
  return `${withoutEnding(scenarioFile)}.weigh-in.csv`;
}

const YIELD_TESTS = "yield-tests.csv";

function withoutEnding(scenarioFile: string): string {
  return scenarioFile.replace(/\.ya?ml$/i, "");
}
