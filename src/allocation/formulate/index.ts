import type { Scenario } from "../../kitchen/index.js";
import { ModelBuilder } from "../builder.js";
import { leastLotCosts } from "../costs.js";
import { cookingSites, reachableDemand } from "../demand.js";
import type { Model } from "../model.js";
import { buildNetwork, type Network } from "../network.js";
import { addOrders } from "./buying.js";
import { type BuildContext, type CeilingHandle, type Handles, noHandles } from "./context.js";
import { addCourses } from "./courses.js";
import { addDishes } from "./dishes.js";
import { addItems } from "./items.js";
import { addLimits } from "./limits.js";
import { LotCosts } from "./lot-costs.js";
import { addObjectives, type Objectives } from "./objectives.js";
import { addOffering } from "./offering.js";
import { addOpenCosts } from "./open-costs.js";
import { addParts } from "./parts.js";
import { addTightenings, type Ceilings, NOTHING_SHOWN, partsHeld, tighteningKey } from "./tightening.js";

export type { CutHandle, GoHandle, Handles } from "./context.js";
export { aimsInOrder, type Objectives } from "./objectives.js";
export {
  type Ceilings,
  type Margin,
  type Tightening,
  tighteningKey,
} from "./tightening.js";

/** The scenario as an optimisation model, with what each variable decides. */
export interface PlanModel {
  readonly scenario: Scenario;
  readonly model: Model;
  readonly objectives: Objectives;
  readonly handles: Handles;
  readonly network: Network;
  readonly ceilings: Ceilings;
}

/**
 * Builds the model of a scenario. In ceiling rows a part costs the least it can, unless an earlier plan was
 * over a ceiling and is tightened, or is to stay below it by a margin. Cuts that repeat earlier ones are left out where
 * no lot is held to a cost, unless all are asked for.
 */
export function buildModel(
  scenario: Scenario,
  ceilings: Ceilings = NOTHING_SHOWN,
  lots: "all" | "needed" = ceilings.tightenings.length + ceilings.open.length === 0 ? "needed" : "all",
): PlanModel {
  const { tightenings, margins, open } = ceilings;
  const least = leastLotCosts(scenario);
  const tightened = new Map(tightenings.map((entry) => [tighteningKey(entry), entry.perKilogram]));
  const network = buildNetwork(scenario, lots);
  const sites = cookingSites(scenario);
  const context: BuildContext = {
    scenario,
    network,
    sites,
    demand: reachableDemand(scenario, network, sites),
    costOf: (lot, { dish, service }) =>
      tightened.get(tighteningKey({ lot, dish: dish.name, service })) ?? least(lot),
    marginOf: ({ dish, service }) =>
      margins.find((margin) => margin.dish === dish.name && margin.service === service)?.perPortion ?? 0,
    heldToCost: partsHeld(ceilings, scenario),
    builder: new ModelBuilder(),
    handles: noHandles(),
  };
  addItems(context);
  addOrders(context);
  addParts(context);
  addDishes(context);
  addOffering(context);
  addCourses(context);
  addLimits(context);
  const costs = new LotCosts(context);
  addTightenings(tightenings, costs);
  const isOpen = ({ site }: CeilingHandle): boolean =>
    open.some(({ dish, service }) => dish === site.dish.name && service === site.service);
  addOpenCosts(context.handles.ceilings.filter(isOpen), costs, context);
  const objectives = addObjectives(context);
  return {
    scenario,
    model: context.builder.build(scenario.name),
    objectives,
    handles: context.handles,
    network,
    ceilings,
  };
}
