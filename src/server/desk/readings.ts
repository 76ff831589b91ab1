import type { Scenario } from "../../kitchen/index.js";
import { type Loaded, loadScenarioText } from "../../kitchen-files/index.js";
import type { ScenarioTexts } from "../scenario-texts.js";

/** Most scenarios held; the one asked for longest ago goes first. */
const MOST_HELD = 8;
const held = new Map<string, Loaded>();

/** A scenario as it was read of these texts; many pages of one are answered by one reading. */
export function loadedOf({ name, text, ownTests, hash }: ScenarioTexts): Loaded {
  const key = `${hash} ${name}`;
  const loaded = held.get(key) ?? loadScenarioText(name, text, undefined, ownTests);
  held.delete(key);
  held.set(key, loaded);
  const [oldest] = held.keys();
  if (held.size > MOST_HELD && oldest !== undefined) held.delete(oldest);
  return loaded;
}

/** The scenario, of texts that were read before without a problem. */
export function scenarioOf(texts: ScenarioTexts): Scenario {
  const { scenario } = loadedOf(texts);
  if (scenario === null) throw new RangeError(`${texts.name} has problems`);
  return scenario;
}
