import type { Engines } from "../../allocation/index.js";
import { type PlanJson, planHash } from "../../contract/index.js";
import { type Kept, textsToKeep } from "../../keeping/index.js";
import { renderPages, replanPage, replanText, writingFor } from "../../pages/index.js";
import { type Replanned, replan } from "../../planning/index.js";
import { planFile } from "../../records/index.js";
import { type DayForm, readDayForm } from "../day-form.js";
import { fromScenario } from "../frame.js";
import { notice, type PageAnswer, page, wordsOf } from "../page-answer.js";
import { happenedText, replanScreen } from "../replan-form.js";
import { scenarioOf } from "../scenario-texts.js";
import type { Task } from "./serve-tasks.js";

/** The rest of a kept plan, and where the form asks for it, what is to be kept in place of the plan of that hash. */
export interface PlannedRest {
  readonly page: PageAnswer;
  readonly keep: { readonly texts: Kept; readonly insteadOf: string } | null;
}

/** The rest of the plan that is kept beside a scenario planned anew, by a form of what happened. */
export type RestTask = Task<DayForm & { readonly seconds: number }, string, PlannedRest>;

export async function planRest(
  { seconds, ...form }: RestTask["asked"],
  engines: Engines,
): Promise<PlannedRest> {
  const read = await readDayForm(form, scenarioOf(form.file));
  if ("refused" in read) return { page: read.refused, keep: null };
  const { scenario, kept } = read;
  const { file, path, typed } = form;
  const source = { file: "form", text: happenedText(scenario, kept, typed) };
  const before = { plan: kept, file: planFile(file.name) };
  const { replanned, problems } = await replan(before, scenario, source, { engines, seconds });
  if (replanned === null) {
    const wrong = problems.map(({ what, remedy }) => `${what}. ${remedy}.`);
    return { page: page(replanScreen(scenario, kept, typed, wrong), 422), keep: null };
  }
  const answer = page(answerOf(kept, replanned, file.name));
  if (replanned.plan === null || !typed.has("keep")) return { page: answer, keep: null };
  const { texts, problem } = textsToKeep(replanned.plan, replanned.scenario, path);
  return texts === null
    ? { page: notice(409, "Not kept", wordsOf([problem])), keep: null }
    : { page: answer, keep: { texts, insteadOf: planHash(kept) } };
}

/** The page of what changes; where there is no plan, what would make one. */
function answerOf(
  before: PlanJson,
  { plan, scenario, rest, overCeiling, changes }: Replanned,
  name: string,
): string {
  const layout = fromScenario(name);
  if (plan === null) {
    const [first] = renderPages(rest.plan, rest.scenario, layout);
    if (first === undefined) throw new RangeError(`${name}: a rest without an answer has no page`);
    return first.html;
  }
  const from = rest.scenario.services[0]?.name ?? "";
  const words = replanText(before, plan, { from, overCeiling, changes }, writingFor(scenario));
  return replanPage(words, scenario, layout).html;
}
