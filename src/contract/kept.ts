import type { Scenario } from "../kitchen/index.js";
import { keepLedger } from "../ledger/index.js";
import { composeDecision } from "./compose.js";
import { decisionOf, withStockOf } from "./decision-of.js";
import { type PlanJson, planSchema } from "./plan.js";
import { knownAs } from "./plan-hash.js";

/** What a plan kept by any version of the program holds; other fields were added since. */
const keptSchema = planSchema.partial().required({
  schema: true,
  scenario: true,
  aim: true,
  outcome: true,
  stages: true,
  purchases: true,
  onHand: true,
  cuts: true,
  preps: true,
  goings: true,
  dishes: true,
  leftovers: true,
  warnings: true,
  reasons: true,
});

/**
 * A plan as it was kept in a file, with the fields that were added to the contract since; null where it is none. A
 * plan of another scenario that lacks fields is a PlanMismatch.
 */
export function keptPlan(json: unknown, scenario: Scenario): PlanJson | null {
  const whole = planSchema.safeParse(json);
  if (whole.success) return knownAs(whole.data, json);
  const kept = keptSchema.safeParse(json);
  if (!kept.success) return null;
  const decision = decisionOf(kept.data, scenario);
  const then = withStockOf(kept.data, scenario);
  const anew = composeDecision(then, decision, keepLedger(then, decision));
  const stated = Object.fromEntries(Object.entries(kept.data).filter(([, value]) => value !== undefined));
  return knownAs(planSchema.parse({ ...anew, ...stated }), json);
}
