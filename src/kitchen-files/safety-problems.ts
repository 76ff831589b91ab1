import type { ReadScenario, Scenario } from "../kitchen/index.js";
import { isWrittenMap, type Path, type Problem, type Written, writtenAt } from "../reading/index.js";
import { checkSafety } from "../safety/index.js";

type Block = ReturnType<typeof checkSafety>["blocks"][number];

const REMEDIES: Readonly<Record<string, string>> = {
  "treatment-needed": "State it under `treatments` of the dish, and do it",
  "unknown-part": "Write `food_by:` and whose word it is under `parts:`, or leave it out",
  "allergen-claim": "Take the diet off the dish, or the allergen out of it",
  "diet-claim": "Take the diet off the dish, or what it holds out of it",
};

/** What of a scenario must not be planned, at the place in the file that asks for it. */
export function safetyProblems(scenario: Scenario, read: ReadScenario): Problem[] {
  return checkSafety(scenario).blocks.map((block) => {
    const remedy = REMEDIES[block.code] ?? "Leave it out";
    const code = `safety/${block.code}`;
    return { ...positionOf(block, scenario, read), code, what: block.text.replace(/\.$/, ""), remedy };
  });
}

/** Where the part is named in the dish; else in any dish, a step or its own entry; else the dish or the item itself. */
function positionOf({ part, dish }: Block, scenario: Scenario, read: ReadScenario) {
  const within: Path[] = dish === null ? [["dishes"], ["steps"], ["parts"]] : [["dishes", dish]];
  const named = part === null ? null : firstNaming(part, within, read.written);
  if (named !== null) return named.isKey ? read.keyPositionOf(named.path) : read.positionOf(named.path);
  if (dish !== null) return read.keyPositionOf(["dishes", dish]);
  const item = scenario.parts.find(({ name }) => name === part)?.item;
  return read.keyPositionOf(item == null ? ["parts"] : ["items", item]);
}

interface Named {
  readonly path: Path;
  readonly isKey: boolean;
}

function firstNaming(name: string, within: readonly Path[], written: Written | undefined): Named | null {
  for (const path of within) {
    const found = naming(name, path, writtenAt(written, path));
    if (found !== null) return found;
  }
  return null;
}

function naming(name: string, path: Path, node: Written | undefined): Named | null {
  if (node === name) return { path, isKey: false };
  const children: readonly (readonly [string | number, Written])[] = Array.isArray(node)
    ? [...node.entries()]
    : isWrittenMap(node)
      ? Object.entries(node)
      : [];
  for (const [step, child] of children) {
    if (step === name) return { path: [...path, step], isKey: true };
    const found = naming(name, [...path, step], child);
    if (found !== null) return found;
  }
  return null;
}
