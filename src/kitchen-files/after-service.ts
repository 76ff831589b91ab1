import { access } from "node:fs/promises";
import { basename, dirname } from "node:path";
import { keptPlan, type PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { MOST, type Problem, problemOf } from "../reading/index.js";
import { changeFile, planFile, textAt, weighInFile, yieldTestsFile } from "../records/index.js";
import {
  type Change,
  type FilledRow,
  filledRows,
  type Happened,
  learn,
  type NoTest,
  refilled,
  whatHappened,
  yieldTestsOf,
} from "../weigh-in/index.js";
import { kitchenYields } from "./kitchen-yields.js";
import { words } from "./words.js";

/** Whether a plan is kept beside the scenario. */
export async function isPlanKept(scenarioFile: string): Promise<boolean> {
  return access(planFile(scenarioFile)).then(
    () => true,
    () => false,
  );
}

/** A plan as kept, and the text of its weigh-in; null, with the problem, where there is none to read. */
export async function readKeptPlan(
  scenarioFile: string,
  scenario: Scenario,
): Promise<{ kept: { plan: PlanJson; weighIn: string } | null; problems: readonly Problem[] }> {
  const files = { plan: planFile(scenarioFile), weighIn: weighInFile(scenarioFile) };
  const keep = `Plan and keep it: trim-to-use plan ${scenarioFile} --keep`;
  const text = await textAt(files.plan, MOST.planBytes);
  if (text === null) return { kept: null, problems: [problemOf(files.plan, words.noPlanKept(keep))] };
  if (typeof text !== "string") return { kept: null, problems: [text] };
  const read = keptPlan({ file: files.plan, text }, scenario, keep);
  if ("problems" in read) return { kept: null, problems: read.problems };
  const weighIn = await textAt(files.weighIn);
  if (weighIn !== null && typeof weighIn !== "string") return { kept: null, problems: [weighIn] };
  return weighIn === null
    ? { kept: null, problems: [problemOf(files.weighIn, words.noWeighIn(keep))] }
    : { kept: { plan: read.plan, weighIn }, problems: [] };
}

/** What happened by the files beside a scenario. */
export async function happenedAt(
  scenarioFile: string,
  scenario: Scenario,
): Promise<{ planned: PlanJson | null; happened: Happened | null; problems: readonly Problem[] }> {
  const { kept, problems } = await readKeptPlan(scenarioFile, scenario);
  if (kept === null) return { planned: null, happened: null, problems };
  const source = { file: weighInFile(scenarioFile), text: kept.weighIn };
  return { planned: kept.plan, ...whatHappened(kept.plan, scenario, source, planFile(scenarioFile)) };
}

/** The weigh-in beside a scenario as it stands; null, with the problems, where there is none that can be filled in. */
export async function weighInAt(
  scenarioFile: string,
  scenario: Scenario,
): Promise<{ rows: readonly FilledRow[] | null; problems: readonly Problem[] }> {
  const { kept, problems } = await readKeptPlan(scenarioFile, scenario);
  if (kept === null) return { rows: null, problems };
  const source = { file: weighInFile(scenarioFile), text: kept.weighIn };
  const filled = filledRows(kept.plan, scenario, source, planFile(scenarioFile));
  return filled.problems.length > 0
    ? { rows: null, problems: filled.problems }
    : { rows: filled.rows, problems: [] };
}

/**
 * Writes some rows of a weigh-in anew, signed and timed, while no one else writes; with an error in any, none. Throws
 * `NotSaved` where the file cannot be written.
 */
export async function fillIn(
  scenarioFile: string,
  scenario: Scenario,
  written: { readonly changes: ReadonlyMap<string, Change>; readonly by: string; readonly time: string },
): Promise<{ errors: ReadonlyMap<string, string>; problems: readonly Problem[] }> {
  const { kept, problems } = await readKeptPlan(scenarioFile, scenario);
  if (kept === null) return { errors: new Map(), problems };
  const file = weighInFile(scenarioFile);
  let found: { errors: ReadonlyMap<string, string>; problems: readonly Problem[] } = {
    errors: new Map(),
    problems,
  };
  await changeFile(file, (text) => {
    const source = { file, text: text ?? kept.weighIn };
    const filled = refilled(kept.plan, scenario, source, { ...written, planFile: planFile(scenarioFile) });
    found = filled;
    return filled.errors.size + filled.problems.length === 0 ? filled.text : source.text;
  });
  return found;
}

export interface Lesson {
  readonly file: string;
  /** Tests of the weigh-in, learnt now or before. */
  readonly tests: number;
  readonly added: number;
  readonly replaced: number;
  readonly removed: number;
  readonly without: readonly NoTest[];
  readonly problems: readonly Problem[];
}

/**
 * Adds the yield tests of what happened to the kitchen's own; those that it learnt before count once. Throws
 * `NotSaved` where the file cannot be written.
 */
export async function learnFrom(scenarioFile: string, { rows, scenario }: Happened): Promise<Lesson> {
  const { published } = kitchenYields(null);
  const weighIn = basename(weighInFile(scenarioFile));
  const { tests, without } = yieldTestsOf(rows, scenario, published, weighIn);
  const file = yieldTestsFile(dirname(scenarioFile));
  const dates = scenario.services.map(({ date }) => date);
  const lesson = { file, tests: tests.length, added: 0, replaced: 0, removed: 0, without, problems: [] };
  if (tests.length === 0 && (await textAt(file)) === null) return lesson;
  let counts: Pick<Lesson, "added" | "replaced" | "removed" | "problems"> = lesson;
  await changeFile(file, (text) => {
    const learnt = learn(file, text, { tests, weighIn, dates }, published);
    if (learnt.kind === "learnt") {
      counts = { ...learnt, problems: [] };
      return learnt.text;
    }
    counts = { added: 0, replaced: 0, removed: 0, problems: learnt.problems };
    return text ?? "";
  });
  const { added, replaced, removed, problems } = counts;
  return { ...lesson, added, replaced, removed, problems };
}
