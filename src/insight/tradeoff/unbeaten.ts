import type { Scenario } from "../../kitchen/index.js";
import { roundTogether, type Weight } from "../../quantity/index.js";
import type { PlanAgain } from "../again.js";

/**
 * Those that no other is at least as good as on both, by the ledger, with waste as the scale shows it; from the least
 * waste. Of equals, the first.
 */
export function unbeaten(plans: readonly PlanAgain[], { scaleStep }: Scenario): PlanAgain[] {
  const shown = ({ values: { waste } }: PlanAgain): Weight => roundTogether([waste], scaleStep)[0] ?? waste;
  const kept: PlanAgain[] = [];
  const inOrder = [...plans].sort(
    (one, other) =>
      compare(shown(one), shown(other)) ||
      compare(one.values.netSpend, other.values.netSpend) ||
      compare(one.values.waste, other.values.waste),
  );
  for (const plan of inOrder) {
    const before = kept.at(-1);
    if (before === undefined || plan.values.netSpend < before.values.netSpend) kept.push(plan);
  }
  return kept;
}

function compare(one: bigint, other: bigint): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
