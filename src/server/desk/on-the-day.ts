import { usesOf } from "../../insight/index.js";
import { isIsoDate, parseWeight } from "../../kitchen/index.js";
import { loadWithOffcut, readKeptPlan } from "../../kitchen-files/index.js";
import { pageOf, usesDocument } from "../../pages/index.js";
import { isWording } from "../../reading/index.js";
import { type DayForm, readDayForm } from "../day-form.js";
import { fromScenario } from "../frame.js";
import { notice, type PageAnswer, page, wordsOf } from "../page-answer.js";
import { replanScreen } from "../replan-form.js";
import type { ScenarioAt } from "../scenario-texts.js";
import type { Task } from "../work/serve-tasks.js";
import { scenarioOf } from "./readings.js";

/** What an offcut is good for; all of it as it was typed. */
export type UsesTask = Task<
  ScenarioAt & { readonly part: string; readonly weight: string; readonly useBy: string },
  never,
  PageAnswer
>;
/** The form of what happened since the plan was kept. */
export type DayFormTask = Task<ScenarioAt, never, PageAnswer>;
/** Why such a form cannot be worked on; null where it can. */
export type RefusalTask = Task<DayForm, never, PageAnswer | null>;

export async function uses({ file, path, part, weight, useBy }: UsesTask["asked"]): Promise<PageAnswer> {
  const refuse = (what: string, remedy: string) => notice(400, "Not read", `${what}. ${remedy}.`);
  const read = parseWeight(weight, null);
  if (isWording(read)) return refuse(`Weight: ${read.what}`, read.remedy);
  if (useBy !== "" && !isIsoDate(useBy))
    return refuse(`Use by: \`${useBy}\` is no day`, "Write it as 2026-10-02");
  const offcut = { part, weight: read, ...(useBy === "" ? {} : { useBy }) };
  const { scenario, stock, problems } = await loadWithOffcut(path, offcut);
  if (scenario !== null)
    return page(pageOf(usesDocument(usesOf(stock, scenario), scenario), fromScenario(file.name)).html);
  const [first] = problems;
  return refuse(`${part}: ${first?.what ?? "it is not known"}`, first?.remedy ?? "Choose a part");
}

export async function dayForm({ file, path }: DayFormTask["asked"]): Promise<PageAnswer> {
  const scenario = scenarioOf(file);
  const { kept, problems } = await readKeptPlan(path, scenario);
  return kept === null
    ? notice(404, "No plan to go on from", wordsOf(problems))
    : page(replanScreen(scenario, kept.plan, new Map(), []));
}

export async function dayFormRefusal(form: DayForm): Promise<PageAnswer | null> {
  const read = await readDayForm(form, scenarioOf(form.file));
  return "refused" in read ? read.refused : null;
}
