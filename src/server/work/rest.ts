import { basename } from "node:path";
import type { PlanJson } from "../../contract/index.js";
import { keepPlan } from "../../keeping/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { readKeptPlan } from "../../kitchen-files/index.js";
import { renderPages, replanPage, replanText, writingFor } from "../../pages/index.js";
import { type Replanned, replan } from "../../planning/index.js";
import type { Problem } from "../../reading/index.js";
import { NotSaved, planFile } from "../../records/index.js";
import { happenedText, notOfThisPlan, replanScreen, type Typed } from "../replan-form.js";
import { addressOf, noticeScreen } from "../screens.js";
import { type Means, type PageAnswer, type ScenarioTexts, scenarioOf, type Task } from "./tasks.js";

/** The rest of the plan that is kept beside a scenario planned anew, by a form of what happened. */
export type RestTask = Task<
  {
    readonly file: ScenarioTexts;
    /** Where the scenario's file is. */
    readonly path: string;
    readonly typed: Typed;
    readonly seconds: number;
  },
  never,
  PageAnswer
>;

export async function planRest(
  { file, path, typed, seconds }: RestTask["asked"],
  { engines }: Means<never>,
): Promise<PageAnswer> {
  const scenario = scenarioOf(file);
  const read = await readKeptPlan(path, scenario);
  if (read.kept === null)
    return { status: 404, html: noticeScreen("No plan to go on from", linesOf(read.problems).join(" ")) };
  const kept = read.kept.plan;
  const strange = notOfThisPlan(scenario, kept, typed);
  if (strange.length > 0) return { status: 409, html: replanScreen(scenario, kept, typed, strange) };
  const source = { file: "form", text: happenedText(scenario, kept, typed) };
  const before = { plan: kept, file: planFile(file.name) };
  const { replanned, problems } = await replan(before, scenario, source, { engines, seconds });
  if (replanned === null) {
    const wrong = problems.map(({ what, remedy }) => `${what}. ${remedy}.`);
    return { status: 422, html: replanScreen(scenario, kept, typed, wrong) };
  }
  if (replanned.plan !== null && typed.has("keep")) {
    const unsaved = await keepAnew(path, { plan: replanned.plan, before: kept }, replanned.scenario);
    if (unsaved.length > 0)
      return { status: 409, html: noticeScreen("Not kept", linesOf(unsaved).join(" ")) };
  }
  return { status: 200, html: answerOf(kept, replanned, file.name) };
}

/** Problems of files in the kitchen's folder, a line each. */
export function linesOf(problems: readonly Problem[]): string[] {
  return problems.map(({ file, what, remedy }) => `${basename(file)}: ${what}. ${remedy}.`);
}

/** The page of what changes; where there is no plan, what would make one. */
function answerOf(
  before: PlanJson,
  { plan, scenario, rest, overCeiling, changes }: Replanned,
  name: string,
): string {
  const layout = { assets: "/assets/", home: { href: addressOf(name), text: "Scenario" } };
  if (plan === null) {
    const [page] = renderPages(rest.plan, rest.scenario, layout);
    return page?.html ?? noticeScreen("No plan for the rest", "With what is left there is none.");
  }
  const from = rest.scenario.services[0]?.name ?? "";
  const words = replanText(before, plan, { from, overCeiling, changes }, writingFor(scenario));
  return replanPage(words, scenario, layout).html;
}

async function keepAnew(
  path: string,
  { plan, before }: { readonly plan: PlanJson; readonly before: PlanJson },
  scenario: Scenario,
): Promise<readonly Problem[]> {
  try {
    return (await keepPlan(path, plan, scenario, before)).problems;
  } catch (error) {
    if (error instanceof NotSaved) return [error.problem];
    throw error;
  }
}
