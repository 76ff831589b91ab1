import type { Decision } from "../../kitchen/index.js";
import { times } from "../../quantity/index.js";
import type { PlanModel } from "../build/index.js";
import { portionWeight } from "../build/limits.js";
import { Rooms } from "./ends.js";
import { decideFlows } from "./flows.js";
import { decideItems } from "./items.js";
import { decideCookings } from "./portions.js";
import { weightOf } from "./rounding.js";

export { type CookingOver, type CostOfLot, mendCookings } from "./mending.js";

/**
 * Turns a certified point into whole units, whole portions and milligrams that close exactly. It rounds; whether
 * the rounded plan still does all that was asked is for `verifyDecision` to say.
 */
export function decide(plan: PlanModel, point: readonly number[]): Decision {
  const items = decideItems(plan, point);
  const cookings = decideCookings(plan, point);
  const rooms = new Rooms(plan.scenario);
  for (const { site, destination, variable } of plan.handles.spares) {
    if (destination !== null)
      rooms.take(destination, times(weightOf(portionWeight(site)), Math.round(point[variable] ?? 0)));
  }
  const done = { ...items, cookings };
  return { ...done, ...decideFlows(plan, point, done, rooms) };
}
