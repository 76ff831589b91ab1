import type { Scenario } from "../../kitchen/index.js";
import { leastOf, Sum } from "../builder.js";
import { currency, kg } from "../floats.js";
import type { Objective } from "../model.js";
import { purchaseCost } from "./buying.js";
import type { BuildContext } from "./context.js";
import { portionsOf, stapleCost } from "./dishes.js";
import { trimmingHours } from "./limits.js";
import { addWaste } from "./waste.js";

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
