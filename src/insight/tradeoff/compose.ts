import { gramsText, moneyText, type TradeoffJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal, grams, money } from "../../quantity/index.js";
import { changesBetween } from "../changes.js";
import type { CurveResult } from "./curve.js";

/** The curve as JSON, each plan with what it does otherwise than the one before. */
export function composeTradeoff(scenario: Scenario, result: CurveResult): TradeoffJson {
  const head = {
    schema: "trim-to-use/tradeoff@1" as const,
    scenario: scenario.name,
    currency: scenario.currency,
  };
  if (result.kind === "none") {
    const { again } = result;
    return {
      ...head,
      outcome: again.kind === "no plan" ? "no plan" : "no answer",
      complete: again.kind === "no plan",
      stoppedBy: again.kind === "unknown" ? again.why : null,
      steps: null,
      plans: [],
    };
  }
  const { plans, complete, stoppedBy, steps } = result.curve;
  return {
    ...head,
    outcome: "curve",
    complete,
    stoppedBy,
    steps: {
      waste: gramsText(grams(new Decimal(steps.waste).times(1000))),
      netSpend: moneyText(money(new Decimal(steps.cost))),
    },
    plans: plans.map(({ plan, values, proved }, index) => {
      const before = plans[index - 1];
      return {
        waste: gramsText(values.waste),
        netSpend: moneyText(values.netSpend),
        proved,
        changes: before === undefined ? [] : changesBetween(before.plan, plan, scenario),
        plan,
      };
    }),
  };
}
