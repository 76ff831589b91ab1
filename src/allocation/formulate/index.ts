import type { Scenario } from "../../kitchen/index.js";
import { leastLotCosts } from "../costs.js";
import { cookingSites, reachableDemand } from "../demand.js";
import { currency, kg } from "../floats.js";
import { buildLotGraph, type LotGraph } from "../lot-graph.js";
import { leastOf, type Model, ModelBuilder, type Objective, Sum } from "../model.js";
import { addOrders, purchaseCost } from "./buying.js";
import {
  type BuildContext,
  type CeilingHandle,
  type Ceilings,
  Handles,
  NOTHING_SHOWN,
  partsHeld,
  tighteningKey,
} from "./context.js";
import { addCourses } from "./courses.js";
import { addDishes, addOffering, portionsOf, stapleCost } from "./dishes.js";
import { addItems } from "./items.js";
import { addLimits, trimmingHours } from "./limits.js";
import { LotCosts } from "./lot-costs.js";
import { addOpenCosts } from "./open-costs.js";
import { addParts } from "./parts.js";
import { addWaste } from "./waste.js";

export {
  type Ceilings,
  type CutHandle,
  type GoHandle,
  type Handles,
  type Margin,
  type Tightening,
  tighteningKey,
} from "./context.js";

/** The scenario as an optimisation model, with what each variable decides. */
export interface PlanModel {
  readonly scenario: Scenario;
  readonly model: Model;
  readonly objectives: Objectives;
  readonly handles: Handles;
  readonly lotGraph: LotGraph;
  readonly ceilings: Ceilings;
}

/**
 * Builds the model of a scenario. In ceiling rows a part costs the least it can, unless an earlier plan was over a
 * ceiling and is tightened, or is to stay a margin below it. Cuts that repeat earlier ones are left out where no lot
 * is held to a cost.
 */
export function buildModel(
  scenario: Scenario,
  ceilings: Ceilings = NOTHING_SHOWN,
  lots: "all" | "needed" = ceilings.tightenings.length + ceilings.open.length === 0 ? "needed" : "all",
): PlanModel {
  const { tightenings, margins, open } = ceilings;
  const least = leastLotCosts(scenario);
  const tightened = new Map(tightenings.map((entry) => [tighteningKey(entry), entry.perKilogram]));
  const lotGraph = buildLotGraph(scenario, lots);
  const sites = cookingSites(scenario);
  const context: BuildContext = {
    scenario,
    lotGraph,
    sites,
    demand: reachableDemand(scenario, lotGraph, sites),
    costOf: (lot, { dish, service }) =>
      tightened.get(tighteningKey({ lot, dish: dish.name, service })) ?? least(lot),
    marginOf: ({ dish, service }) =>
      margins.find((margin) => margin.dish === dish.name && margin.service === service)?.perPortion ?? 0,
    heldToCost: partsHeld(ceilings, scenario),
    builder: new ModelBuilder(),
    handles: new Handles(),
  };
  addItems(context);
  addOrders(context);
  addParts(context);
  addDishes(context);
  addOffering(context);
  addCourses(context);
  addLimits(context);
  const costs = new LotCosts(context);
  // The ceiling row charges the cheapest way of cutting, and does not see what the others cost.
  for (const { lot, perKilogram, held } of tightenings) if (held) costs.hold(lot, perKilogram);
  const isOpen = ({ site }: CeilingHandle): boolean =>
    open.some(({ dish, service }) => dish === site.dish.name && service === site.service);
  addOpenCosts(context.handles.ceilings.filter(isOpen), costs, context);
  const objectives = addObjectives(context);
  return {
    scenario,
    model: context.builder.build(scenario.name),
    objectives,
    handles: context.handles,
    lotGraph,
    ceilings,
  };
}

export interface Objectives {
  /** Kilograms of waste. */
  readonly waste: Objective;
  /** Net spend, with hands at the scenario's wage, in currency units. */
  readonly cost: Objective;
  /** Cost + waste price x waste, in currency units. */
  readonly balanced: Objective;
}

/** The aims, with the variables and rows that their sums need. */
export function addObjectives(context: BuildContext): Objectives {
  const { sum: waste, constant } = addWaste(context);
  const cost = costSum(context);
  const price = currency(context.scenario.wastePrice);
  return {
    waste: leastOf(waste, constant),
    cost: leastOf(cost),
    balanced: leastOf(new Sum().addSum(cost).addSum(waste, price), price * constant),
  };
}

/** Order units at the till, deliveries and staples by use, less what is kept at its stated value; hands at the wage. */
function costSum(context: BuildContext): Sum {
  const { scenario, handles, sites } = context;
  const sum = purchaseCost(context);
  for (const site of sites) sum.addSum(portionsOf(site, context), stapleCost(site));
  for (const { lot, variable } of handles.keeps) {
    if (lot.kind.carry !== null) sum.add(variable, -currency(lot.kind.carry.valuePerKilogram));
  }
  for (const { item, variable } of handles.keptItems) {
    if (item.carry !== null) sum.add(variable, -currency(item.carry.valuePerKilogram) * kg(item.unitWeight));
  }
  if (scenario.wage > 0n) sum.addSum(trimmingHours(handles), currency(scenario.wage));
  return sum;
}

/** The aims in the order they are solved: the scenario's own, then the other of waste and cost. */
export function aimsInOrder(scenario: Pick<Scenario, "aim">): readonly (keyof Objectives)[] {
  return scenario.aim === "waste" ? ["waste", "cost"] : [scenario.aim, "waste"];
}
