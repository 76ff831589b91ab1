import type { Decision } from "../../kitchen/index.js";
import type { PlanModel } from "../formulate/index.js";
import { DestinationCapacity, decideCookings, decideEnds } from "./ends.js";
import { decideFlows } from "./flows.js";
import { decideItems } from "./items.js";

export { type CookingOver, type CostOfLot, mendCookings } from "./mending.js";

/**
 * Turns a certified point into whole units, whole portions and milligrams that close exactly. It rounds; whether
 * the rounded plan still does all that was asked is for `verifyDecision` to say.
 */
export function decide(plan: PlanModel, point: readonly number[]): Decision {
  const items = decideItems(plan, point);
  const { preps, goings, rests } = decideFlows(plan, point, items);
  const capacity = new DestinationCapacity(plan.scenario);
  const cookings = decideCookings(plan, point, goings, capacity);
  return { ...items, preps, goings, cookings, ...decideEnds(rests, plan.scenario, capacity) };
}
