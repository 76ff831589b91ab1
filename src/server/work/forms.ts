import type { Engines } from "../../allocation/index.js";
import { planFormChoice } from "../../insight/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { CostingError } from "../../ledger/index.js";
import { formChoiceDocument, pageOf } from "../../pages/index.js";
import { planningWith } from "../../planning/index.js";
import type { Money } from "../../quantity/index.js";
import { foodServedOf } from "../../yields/index.js";
import { BESIDE_SCENARIO } from "../frame.js";
import { notice, type PageAnswer, page } from "../page-answer.js";
import { type ScenarioTexts, scenarioOf } from "../scenario-texts.js";
import type { Task } from "./serve-tasks.js";

/** Which form of an item to buy, at a wage by the hour; so many seconds for each plan that is compared. */
export type FormsTask = Task<
  { readonly file: ScenarioTexts; readonly of: string; readonly wage: Money; readonly seconds: number },
  string,
  PageAnswer
>;

export async function planForms(
  { file, of, wage, seconds }: FormsTask["asked"],
  engines: Engines,
): Promise<PageAnswer> {
  const scenario: Scenario = { ...scenarioOf(file), wage };
  try {
    const served = foodServedOf(of, scenario);
    const found = await planFormChoice(of, served, scenario, planningWith(engines), { seconds });
    return page(pageOf(formChoiceDocument(found, scenario), BESIDE_SCENARIO).html);
  } catch (error) {
    if (!(error instanceof CostingError)) throw error;
    return notice(400, "The costing method does not fit", error.message);
  }
}
