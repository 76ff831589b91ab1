import type { Scenario } from "../kitchen/index.js";
import { loadScenarioText, type OwnTestsFile } from "../kitchen-files/index.js";

/** The texts that a scenario is read from. */
export interface ScenarioTexts {
  /** Name of the file without its folder; problems name it so too. */
  readonly name: string;
  readonly text: string;
  readonly ownTests: OwnTestsFile | null;
  /** Equal for equal texts, under any file name. */
  readonly hash: string;
}

/** A scenario, and where its file is. */
export interface ScenarioAt {
  readonly file: ScenarioTexts;
  readonly path: string;
}

/** The scenario, of texts that were read before without a problem. */
export function scenarioOf({ name, text, ownTests }: ScenarioTexts): Scenario {
  const { scenario } = loadScenarioText(name, text, undefined, ownTests);
  if (scenario === null) throw new RangeError(`${name} has problems`);
  return scenario;
}
