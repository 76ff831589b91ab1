import type { Scenario } from "../../kitchen/index.js";
import { ModelBuilder } from "../builder.js";
import { leastCosts } from "../costs.js";
import { cookingSites, reachableDemand } from "../demand.js";
import type { Model } from "../model.js";
import { buildNetwork, type Network } from "../network.js";
import { type BuildContext, costKey, type Handles, type KnownCosts, noHandles } from "./context.js";
import { addCourses } from "./courses.js";
import { addDishes } from "./dishes.js";
import { addItems } from "./items.js";
import { addLimits } from "./limits.js";
import { type Objectives, objectivesOf } from "./objectives.js";
import { addParts } from "./parts.js";

export type { CutHandle, GoHandle, Handles, KnownCosts } from "./context.js";
export { costKey } from "./context.js";
export { aimsInOrder, type Objectives } from "./objectives.js";

/** The scenario as an optimisation model, with what each variable decides. */
export interface PlanModel {
  readonly scenario: Scenario;
  readonly model: Model;
  readonly objectives: Objectives;
  readonly handles: Handles;
  readonly network: Network;
}

/**
 * Builds the model of a scenario. In ceiling rows a part costs the least it can, unless an earlier plan's ledger
 * has shown what it costs in that cooking.
 */
export function buildModel(scenario: Scenario, known: KnownCosts = new Map()): PlanModel {
  const least = leastCosts(scenario);
  const network = buildNetwork(scenario);
  const sites = cookingSites(scenario);
  const context: BuildContext = {
    scenario,
    network,
    sites,
    demand: reachableDemand(scenario, network, sites),
    costOf: (part, { dish, service }) => known.get(costKey(part, dish.name, service)) ?? least.get(part) ?? 0,
    builder: new ModelBuilder(),
    handles: noHandles(),
  };
  addItems(context);
  addParts(context);
  addDishes(context);
  addCourses(context);
  addLimits(context);
  return {
    scenario,
    model: context.builder.build(scenario.name),
    objectives: objectivesOf(context),
    handles: context.handles,
    network,
  };
}
