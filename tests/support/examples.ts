import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { isTestCard, type Scenario } from "../../src/kitchen/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { problemText } from "../../src/reading/index.js";

const FOLDER = fileURLToPath(new URL("../../examples/", import.meta.url));

/** Examples written to have no plan. */
export const WITHOUT_PLAN = ["impossible", "no-plan"];

/** The examples that are scenarios. */
export function exampleNames(): string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => file.slice(0, -".yaml".length))
    .filter((name) => !isTestCard(exampleText(name)))
    .sort();
}

export function feasibleExamples(): string[] {
  return exampleNames().filter((name) => !WITHOUT_PLAN.includes(name));
}

export function exampleText(name: string): string {
  return readFileSync(`${FOLDER}${name}.yaml`, "utf8");
}

/** The scenario of a text that must read without problems. */
export function scenarioOf(text: string): Scenario {
  const { scenario, problems } = loadScenarioText("test.yaml", text);
  if (scenario === null) throw new Error(problems.map(problemText).join("\n"));
  return scenario;
}

export function example(name: string): Scenario {
  return scenarioOf(exampleText(name));
}

/** The text with one passage written otherwise; the passage must stand there once. */
export function rewritten(text: string, passage: string, instead: string): string {
  const [before, after, ...more] = text.split(passage);
  if (before === undefined || after === undefined || more.length > 0) {
    throw new Error(`"${passage}" does not stand there exactly once`);
  }
  return `${before}${instead}${after}`;
}
