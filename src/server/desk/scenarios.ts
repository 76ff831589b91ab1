import type { Loaded } from "../../kitchen-files/index.js";
import type { Problem } from "../../reading/index.js";
import { boughtInSeveralForms } from "../../yields/index.js";
import type { ScenarioTexts } from "../scenario-texts.js";
import type { Task } from "../work/serve-tasks.js";
import { loadedOf } from "./readings.js";
import { stumbled } from "./stumbled.js";

/** What the screens show of a scenario. */
export interface ScenarioSummary {
  readonly name: string;
  /** Items that it buys in several forms. */
  readonly severalForms: readonly string[];
  /** Parts that an offcut may be of. */
  readonly parts: readonly string[];
}

/** A scenario read: what is shown of it, or its problems. */
export interface ReadScenario {
  readonly summary: ScenarioSummary | null;
  readonly problems: readonly Problem[];
}

export type ReadTask = Task<ScenarioTexts, never, ReadScenario>;

/** A file that the program itself stumbles over is a problem of that file alone. */
export async function readScenario(texts: ScenarioTexts): Promise<ReadScenario> {
  try {
    return summarised(loadedOf(texts));
  } catch (error) {
    return { summary: null, problems: [stumbled(texts.name, error)] };
  }
}

function summarised({ scenario, problems }: Loaded): ReadScenario {
  if (scenario === null) return { summary: null, problems };
  const summary = {
    name: scenario.name,
    severalForms: boughtInSeveralForms(scenario),
    parts: scenario.parts.filter((part) => part.class !== "never").map(({ name }) => name),
  };
  return { summary, problems };
}
