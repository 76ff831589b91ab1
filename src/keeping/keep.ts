import { type PlanJson, planHash } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import type { Problem } from "../reading/index.js";
import { changeFiles, planFile, weighInFile } from "../records/index.js";
import { holdsFigures, rowsOfPlan, writeWeighIn } from "../weigh-in/index.js";

/** What a kitchen keeps beside a scenario file, by name. */
export interface KeptFiles {
  readonly plan: string;
  readonly weighIn: string;
}

/**
 * Keeps a plan beside its scenario, with a weigh-in of it to be filled in: both are there, or both stay as they were.
 * What is weighed already is never written over, nor a plan other than `insteadOf`, where that is stated: then nothing
 * is kept, and the problem says so. Throws `NotSaved` where a file cannot be written.
 */
export async function keepPlan(
  scenarioFile: string,
  plan: PlanJson,
  scenario: Scenario,
  insteadOf?: PlanJson,
): Promise<{ kept: KeptFiles | null; problems: readonly Problem[] }> {
  const files = { plan: planFile(scenarioFile), weighIn: weighInFile(scenarioFile) };
  const rows = rowsOfPlan(plan, scenario, files.plan);
  if (!Array.isArray(rows)) return { kept: null, problems: [rows] };
  const blank = writeWeighIn(rows, scenario, undefined, planHash(plan));
  let problem: Problem | null = null;
  await changeFiles([files.plan, files.weighIn], ([before = null, weighIn = null]) => {
    if (weighIn !== null && holdsFigures({ file: files.weighIn, text: weighIn })) problem = isFilled(files);
    else if (insteadOf !== undefined && !isKeptAs(before, insteadOf)) problem = isAnother(files);
    return problem === null ? [`${JSON.stringify(plan, null, 2)}\n`, blank] : null;
  });
  return problem === null ? { kept: files, problems: [] } : { kept: null, problems: [problem] };
}

function isFilled({ weighIn }: KeptFiles): Problem {
  const what = "it holds weights or reasons of the plan that was kept before, which stays as it is";
  const remedy =
    "Learn from them and move the file away, or empty its columns `actual` and `reason`; then keep the new plan";
  return { file: weighIn, line: 1, column: 1, what, remedy };
}

function isAnother({ plan }: KeptFiles): Problem {
  const what = "another plan was kept meanwhile, which stays as it is";
  return { file: plan, line: 1, column: 1, what, remedy: "Plan the rest of that one anew" };
}

function isKeptAs(text: string | null, plan: PlanJson): boolean {
  try {
    return text !== null && planHash(JSON.parse(text)) === planHash(plan);
  } catch {
    return false;
  }
}
