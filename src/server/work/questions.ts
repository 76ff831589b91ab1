import type { Engines } from "../../allocation/index.js";
import { composeTradeoff, tradeoffCurve, worthOf } from "../../insight/index.js";
import { pageOf, tradeoffDocument, worthDocument } from "../../pages/index.js";
import { askedLine, planningWith } from "../../planning/index.js";
import { BESIDE_SCENARIO } from "../frame.js";
import { type PageAnswer, page } from "../page-answer.js";
import { type ScenarioTexts, scenarioOf } from "../scenario-texts.js";
import type { Task } from "./serve-tasks.js";

/** A question that takes many plans to answer, by its name in the address. */
export type QuestionSlug = "tradeoff" | "worth";

/** On the way it is told in words how far it has come. */
export type QuestionTask = Task<
  { readonly slug: QuestionSlug; readonly file: ScenarioTexts; readonly seconds: number },
  string,
  PageAnswer
>;

/** Most plans on one curve. */
const MOST_PLANS = 12;

export async function answerQuestion(
  { slug, file, seconds }: QuestionTask["asked"],
  engines: Engines,
  tell: (text: string) => void,
): Promise<PageAnswer> {
  const began = performance.now();
  const scenario = scenarioOf(file);
  const planning = planningWith(engines);
  const onProgress = (asked: Parameters<typeof askedLine>[0]): void =>
    tell(`${askedLine(asked, began, seconds)}.`);
  if (slug === "worth") {
    const worth = await worthOf(scenario, planning, { seconds, onProgress });
    return page(pageOf(worthDocument(worth, scenario), BESIDE_SCENARIO).html);
  }
  const curve = await tradeoffCurve(scenario, planning, { plans: MOST_PLANS, seconds, onProgress });
  return page(pageOf(tradeoffDocument(composeTradeoff(scenario, curve), scenario), BESIDE_SCENARIO).html);
}
