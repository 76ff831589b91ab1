import {
  type Decision,
  lotKey,
  originKey,
  type PartUse,
  type Prep,
  type Scenario,
  type Step,
} from "../../kitchen/index.js";
import { minus, NO_WEIGHT, plus, scale, splitByShares, type Weight } from "../../quantity/index.js";
import { totalWeight } from "../decision-weights.js";
import type { PlanModel } from "../formulate/index.js";
import { type LotNode, usableAt } from "../lot-graph.js";
import { DestinationCapacity, decideCookings, decideEnds } from "./ends.js";
import { decideItems, type ItemDecisions } from "./items.js";
import {
  askSourcesForEnough,
  cookedIn,
  type DrawOut,
  keepLinesWhole,
  type LotFlows,
  plainLot,
  type Rest,
  roundLotFlows,
  trimToAvailable,
} from "./lot-flows.js";

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

/**
 * Turns the proposed flows into weights on the scale: goings to the nearest step, what is drawn for a step up
 * to one, and never more from a lot than it holds.
 */
function decideFlows(plan: PlanModel, point: readonly number[], { cuts }: ItemDecisions) {
  const { scenario } = plan;
  const allFlows = roundLotFlows(plan, point, cuts);
  keepLinesWhole(allFlows, cookedIn(plan, point), scenario);
  askSourcesForEnough(allFlows, scenario);
  const came = new Map<string, Weight>();
  const preps: Prep[] = [];
  const goings: PartUse[] = [];
  const rests: Rest[] = [];
  for (const flows of allFlows) {
    const { lot } = flows;
    const available = plus(flows.direct, came.get(lotKey(lot)) ?? NO_WEIGHT);
    trimToAvailable(flows, available);
    for (const { dish, service, line, weight, pieces } of flows.goings) {
      if (weight > NO_WEIGHT) goings.push({ lot: plainLot(lot), dish, service, line, weight, pieces });
    }
    for (const draw of flows.draws) {
      if (draw.weight === NO_WEIGHT) continue;
      const prep = prepOf(draw, lot, allFlows, scenario);
      preps.push(prep);
      for (const { part, weight } of prep.parts) {
        const key = lotKey({ part, origin: lot.origin });
        came.set(key, plus(came.get(key) ?? NO_WEIGHT, weight));
      }
    }
    const weight = minus(available, totalWeight([...flows.goings, ...flows.draws]));
    rests.push({ flows, weight });
  }
  return { preps, goings, rests };
}

function prepOf(
  { step, service, weight }: DrawOut,
  lot: LotNode,
  allFlows: readonly LotFlows[],
  scenario: Scenario,
): Prep {
  const water = scale(weight, step.water);
  const pieces = splitByShares(plus(weight, water), [
    ...step.yields.map(({ fraction }) => fraction),
    step.loss,
  ]);
  return {
    step: step.name,
    from: plainLot(lot),
    service:
      service ?? (lot.origin.kind === "cut" ? lot.origin.service : firstUse(step, lot, allFlows, scenario)),
    weight,
    water,
    parts: step.yields.map(({ part }, index) => ({ part, weight: pieces[index] ?? NO_WEIGHT })),
    loss: pieces.at(-1) ?? NO_WEIGHT,
  };
}

/**
 * Stock on hand is worked for the first service that uses what comes of it, or that works it further; where it does
 * not keep so long, as what is frozen for later, before the last one it keeps for.
 */
function firstUse(step: Step, lot: LotNode, allFlows: readonly LotFlows[], scenario: Scenario): number {
  const services = allFlows
    .filter(
      ({ lot: output }) =>
        originKey(output.origin) === originKey(lot.origin) &&
        step.yields.some(({ part }) => part === output.part),
    )
    .flatMap(({ lot: output, goings, draws }) => [
      ...goings.filter(({ weight }) => weight > NO_WEIGHT).map(({ service }) => service),
      ...draws
        .filter(({ weight }) => weight > NO_WEIGHT)
        .map((draw) => draw.service ?? firstUse(draw.step, output, allFlows, scenario)),
    ]);
  const wanted = services.length === 0 ? 0 : Math.min(...services);
  const inTime = Array.from({ length: wanted + 1 }, (_, service) => service).filter((service) =>
    usableAt(lot, service, scenario),
  );
  return inTime.at(-1) ?? wanted;
}
