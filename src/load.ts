import { readFile, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { type Aim, type ReadScenario, readScenario, type Scenario } from "./kitchen/index.js";
import { kitchenYields, readOwnTests } from "./kitchen-yields.js";
import type { Problem, Source } from "./reading/index.js";
import { checkSafety } from "./safety/index.js";
import { resolveScenario } from "./yields/index.js";

/** A scenario file read, joined with the kitchen's yields and checked for safety; null where there are problems. */
export interface Loaded {
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
}

/**
 * Reads a scenario file from disk, with the kitchen's own yield tests beside it, for the aim asked for instead of
 * its own. A file that is not there, or not allowed, is a problem like any other.
 */
export async function loadScenario(path: string, aim?: Aim): Promise<Loaded> {
  const text = await readFile(path, "utf8").catch(() => null);
  if (text !== null) return loadScenarioText(path, text, aim, await readOwnTests(dirname(path)));
  const isFolder = await stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
  const what = isFolder ? "this is a folder" : "there is no such file, or it may not be read";
  const remedy = isFolder ? "Write the path of a scenario file in it" : "Write the path of a scenario file";
  return { scenario: null, problems: [{ file: path, line: 1, column: 1, what, remedy }] };
}

/** The same from texts at hand; `file` names the scenario's in problems. */
export function loadScenarioText(
  file: string,
  text: string,
  aim?: Aim,
  ownTests: Source | null = null,
): Loaded {
  const { tables, problems: tableProblems } = kitchenYields(ownTests);
  const read = readScenario({ file, text });
  const asked = aim === undefined || read.value === null ? read : { ...read, value: { ...read.value, aim } };
  const { scenario, problems } = resolveScenario(asked, tables);
  const all = [...tableProblems, ...problems, ...(scenario === null ? [] : blocksOf(scenario, read))];
  return { scenario: all.length === 0 ? scenario : null, problems: all };
}

const REMEDIES: Readonly<Record<string, string>> = {
  "treatment-needed": "State it under `treatments` of the dish, and do it",
  "unknown-part": "Write `food_by:` and whose word it is under `parts:`, or leave it out",
};

/** What must not be planned, at the place in the file that asks for it. */
function blocksOf(scenario: Scenario, read: ReadScenario): Problem[] {
  return checkSafety(scenario).blocks.map(({ code, text, dish, part }) => {
    const path = dish === null ? ["parts", part ?? ""] : ["dishes", dish];
    return { ...read.keyPositionOf(path), what: text, remedy: REMEDIES[code] ?? "Leave it out" };
  });
}
