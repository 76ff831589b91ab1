import { composeTradeoff, tradeoffCurve, worthOf } from "../../insight/index.js";
import { tradeoffPage, worthPage } from "../../pages/index.js";
import { askedLine, planningWith } from "../../planning/index.js";
import { type Means, type ScenarioTexts, scenarioOf, type Task } from "./tasks.js";

/** A question that takes many plans to answer, by its name in the address. */
export type QuestionSlug = "tradeoff" | "worth";

/** Answered with a page; on the way it is told in words how far it has come. */
export type QuestionTask = Task<
  { readonly slug: QuestionSlug; readonly file: ScenarioTexts; readonly seconds: number },
  string,
  string
>;

/** Most plans on one curve. */
const MOST_PLANS = 12;
const PAGE = { assets: "/assets/", home: { href: ".", text: "Scenario" } };

export async function answerQuestion(
  { slug, file, seconds }: QuestionTask["asked"],
  { engines, tell }: Means<string>,
): Promise<string> {
  const began = performance.now();
  const scenario = scenarioOf(file);
  const onProgress = (asked: Parameters<typeof askedLine>[0]): void =>
    tell(`${askedLine(asked, began, seconds)}.`);
  const planning = planningWith(engines);
  if (slug === "worth")
    return worthPage(await worthOf(scenario, planning, { seconds, onProgress }), scenario, PAGE).html;
  const curve = await tradeoffCurve(scenario, planning, { plans: MOST_PLANS, seconds, onProgress });
  return tradeoffPage(composeTradeoff(scenario, curve), scenario, PAGE).html;
}
