import type { Scenario } from "../../kitchen/index.js";
import { ModelBuilder } from "../builder.js";
import { leastLotCosts } from "../costs.js";
import { cookingSites, reachableDemand } from "../demand.js";
import type { Model } from "../model.js";
import { buildNetwork, type Network } from "../network.js";
import { addOrders } from "./buying.js";
import { type BuildContext, type Handles, noHandles } from "./context.js";
import { addCourses } from "./courses.js";
import { addDishes } from "./dishes.js";
import { addItems } from "./items.js";
import { addLimits } from "./limits.js";
import { type Objectives, objectivesOf } from "./objectives.js";
import { addOffering } from "./offering.js";
import { addParts } from "./parts.js";
import { addTightenings, type Tightening, tighteningKey } from "./tightening.js";

export type { CutHandle, GoHandle, Handles } from "./context.js";
export { aimsInOrder, type Objectives } from "./objectives.js";
export type { Tightening } from "./tightening.js";

/** The scenario as an optimisation model, with what each variable decides. */
export interface PlanModel {
  readonly scenario: Scenario;
  readonly model: Model;
  readonly objectives: Objectives;
  readonly handles: Handles;
  readonly network: Network;
}

/**
 * Builds the model of a scenario. In ceiling rows a part costs the least it can, unless an earlier plan was
 * over a ceiling and is tightened.
 */
export function buildModel(scenario: Scenario, tightenings: readonly Tightening[] = []): PlanModel {
  const least = leastLotCosts(scenario);
  const tightened = new Map(
    tightenings.map(({ lot, dish, service, perKilogram }) => [
      tighteningKey(lot, dish, service),
      perKilogram,
    ]),
  );
  const network = buildNetwork(scenario, tightenings.length === 0 ? "needed" : "all");
  const sites = cookingSites(scenario);
  const context: BuildContext = {
    scenario,
    network,
    sites,
    demand: reachableDemand(scenario, network, sites),
    costOf: (lot, { dish, service }) => tightened.get(tighteningKey(lot, dish.name, service)) ?? least(lot),
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
  addTightenings(tightenings, context);
  return {
    scenario,
    model: context.builder.build(scenario.name),
    objectives: objectivesOf(context),
    handles: context.handles,
    network,
  };
}
