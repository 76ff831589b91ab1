import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { readKeptPlan } from "../kitchen-files/index.js";
import { notice, type PageAnswer, page, wordsOf } from "./page-answer.js";
import { notOfThisPlan, replanScreen, type Typed } from "./replan-form.js";
import type { ScenarioAt } from "./scenario-texts.js";

/** The form of what happened since the plan was kept that is kept beside a scenario. */
export interface DayForm extends ScenarioAt {
  readonly typed: Typed;
}

/** One that can be worked on, or the answer to one that cannot. */
export async function readDayForm(
  { path, typed }: DayForm,
  scenario: Scenario,
): Promise<{ readonly scenario: Scenario; readonly kept: PlanJson } | { readonly refused: PageAnswer }> {
  const read = await readKeptPlan(path, scenario);
  if (read.kept === null) return { refused: notice(404, "No plan to go on from", wordsOf(read.problems)) };
  const kept = read.kept.plan;
  const strange = notOfThisPlan(scenario, kept, typed);
  return strange.length > 0
    ? { refused: page(replanScreen(scenario, kept, typed, strange), 409) }
    : { scenario, kept };
}
