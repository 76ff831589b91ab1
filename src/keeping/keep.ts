import { type PlanJson, planHash } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Problem, problemOf } from "../reading/index.js";
import { changeFiles, planFile, weighInFile } from "../records/index.js";
import { holdsFigures, rowsOfPlan, writeWeighIn } from "../weigh-in/index.js";
import { words } from "./words.js";

/** What a kitchen keeps beside a scenario file: the files by name, or what is written into them. */
export interface Kept {
  readonly plan: string;
  readonly weighIn: string;
}

/** The texts of a plan and of its weigh-in, nothing filled in; the problem where the plan is not of the scenario. */
export function textsToKeep(
  plan: PlanJson,
  scenario: Scenario,
  scenarioFile: string,
): { texts: Kept; problem: null } | { texts: null; problem: Problem } {
  const rows = rowsOfPlan(plan, scenario, planFile(scenarioFile));
  if (!Array.isArray(rows)) return { texts: null, problem: rows };
  const weighIn = writeWeighIn(rows, scenario, undefined, planHash(plan));
  return { texts: { plan: `${JSON.stringify(plan, null, 2)}\n`, weighIn }, problem: null };
}

/**
 * Keeps a plan beside its scenario, with a weigh-in of it to be filled in: both are there, or both stay as they were.
 * What is weighed already is never written over, nor a plan other than that of the hash `insteadOf`, where it is
 * stated: then nothing is kept, and the problem says so. Throws `NotSaved` where a file cannot be written.
 */
export async function keepTexts(
  scenarioFile: string,
  texts: Kept,
  insteadOf?: string,
): Promise<{ kept: Kept | null; problems: readonly Problem[] }> {
  const files = { plan: planFile(scenarioFile), weighIn: weighInFile(scenarioFile) };
  let problem: Problem | null = null;
  await changeFiles([files.plan, files.weighIn], ([before = null, weighIn = null]) => {
    if (weighIn !== null && holdsFigures({ file: files.weighIn, text: weighIn }))
      problem = problemOf(files.weighIn, words.weighInFilled());
    else if (insteadOf !== undefined && hashOf(before) !== insteadOf)
      problem = problemOf(files.plan, words.anotherKept());
    return problem === null ? [texts.plan, texts.weighIn] : null;
  });
  return problem === null ? { kept: files, problems: [] } : { kept: null, problems: [problem] };
}

/** Keeps a plan as `keepTexts` does. */
export async function keepPlan(
  scenarioFile: string,
  plan: PlanJson,
  scenario: Scenario,
  insteadOf?: PlanJson,
): Promise<{ kept: Kept | null; problems: readonly Problem[] }> {
  const { texts, problem } = textsToKeep(plan, scenario, scenarioFile);
  if (texts === null) return { kept: null, problems: [problem] };
  return keepTexts(scenarioFile, texts, insteadOf && planHash(insteadOf));
}

/** Null where there is no plan to read. */
function hashOf(text: string | null): string | null {
  try {
    return text === null ? null : planHash(JSON.parse(text));
  } catch {
    return null;
  }
}
