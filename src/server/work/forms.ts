import { planFormChoice } from "../../insight/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { CostingError } from "../../ledger/index.js";
import { formChoicePage } from "../../pages/index.js";
import { planningWith } from "../../planning/index.js";
import type { Money } from "../../quantity/index.js";
import { foodServedOf } from "../../yields/index.js";
import { noticeScreen } from "../screens.js";
import { type Means, type PageAnswer, type ScenarioTexts, scenarioOf, type Task } from "./tasks.js";

/** Which form of an item to buy, at a wage by the hour; so many seconds for each plan that is compared. */
export type FormsTask = Task<
  { readonly file: ScenarioTexts; readonly of: string; readonly wage: Money; readonly seconds: number },
  never,
  PageAnswer
>;

const LAYOUT = { assets: "/assets/", home: { href: ".", text: "Scenario" } };

export async function planForms(
  { file, of, wage, seconds }: FormsTask["asked"],
  { engines }: Means<never>,
): Promise<PageAnswer> {
  const scenario: Scenario = { ...scenarioOf(file), wage };
  try {
    const served = foodServedOf(of, scenario);
    const found = await planFormChoice(of, served, scenario, planningWith(engines), { seconds });
    return { status: 200, html: formChoicePage(found, scenario, LAYOUT).html };
  } catch (error) {
    if (!(error instanceof CostingError)) throw error;
    return { status: 400, html: noticeScreen("The costing method does not fit", error.message) };
  }
}
