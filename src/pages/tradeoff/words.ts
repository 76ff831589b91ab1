import type { TradeoffJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { grams, type Money, minus, money, roundTogether, type Weight } from "../../quantity/index.js";
import { coins, type Writing } from "../writing.js";

type CurvePlan = TradeoffJson["plans"][number];

/** "Net spend" where something kept is credited, else "Spend". */
export function spendHead({ parts, items }: Scenario): string {
  const isCredited = [...parts, ...items].some(({ carry }) => carry !== null && carry.valuePerKilogram > 0n);
  return isCredited ? "Net spend" : "Spend";
}

/** What two plans next to each other differ by as printed: "Saves £1.05 for 18 g more waste". Empty for the first. */
export function tradeoffSums(
  plan: CurvePlan,
  before: CurvePlan | undefined,
  scenario: Scenario,
  writing: Writing,
): string {
  if (before === undefined) return "";
  const spend = ({ netSpend }: CurvePlan): Money => coins([money(netSpend)], scenario)[0] ?? money(netSpend);
  const waste = (of: CurvePlan): Weight =>
    roundTogether([grams(of.waste)], scenario.scaleStep)[0] ?? grams(of.waste);
  const saved = writing.money(minus(spend(before), spend(plan)));
  return `Saves ${saved} for ${writing.weight(minus(waste(plan), waste(before)))} more waste`;
}

/** Whether these are all the plans there are, and how sure that is. */
export function completeText({ complete, stoppedBy, steps, plans }: TradeoffJson, writing: Writing): string {
  const by =
    steps === null
      ? ""
      : ` by ${writing.weight(grams(steps.waste))} or ${writing.money(money(steps.netSpend))} or more`;
  if (complete && plans.length === 1) return `Proved: no plan is better in either${by}.`;
  if (complete) return `Proved: there are no others that better one without worsening the other${by}.`;
  const count = writing.count(plans.length);
  if (stoppedBy === "number of plans")
    return `${count} plans, evenly spread; there may be more between them.`;
  if (stoppedBy === "a proof not reached")
    return "Not every plan could be proved in its share of the time: there may be better ones.";
  return `The time was over: there may be better plans, and more between these.`;
}
