import type { Breakdown, Item, Part, Scenario } from "../../kitchen/index.js";
import { leastOf, Sum } from "../builder.js";
import { currency, kg, rate } from "../floats.js";
import type { Objective } from "../model.js";
import { purchaseCost } from "./buying.js";
import type { BuildContext } from "./context.js";
import { portionsOf, stapleCost } from "./dishes.js";
import { portionWeight, trimmingHours } from "./limits.js";

export interface Objectives {
  /** Kilograms of waste. */
  readonly waste: Objective;
  /** Net spend, with hands at the scenario's wage, in currency units. */
  readonly cost: Objective;
  /** Cost + waste price x waste, in currency units. */
  readonly balanced: Objective;
}

export function objectivesOf(context: BuildContext): Objectives {
  const waste = wasteSum(context);
  const cost = costSum(context);
  const price = currency(context.scenario.wastePrice);
  return {
    waste: leastOf(waste),
    cost: leastOf(cost),
    balanced: leastOf(new Sum().addSum(cost).addSum(waste, price)),
  };
}

/** Food nobody is given: parts wasted, items binned, spare portions, and peel beyond the thriftiest breakdown's. */
function wasteSum({ scenario, handles }: BuildContext): Sum {
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const sum = new Sum();
  for (const { variable } of handles.wastes) sum.add(variable, 1);
  for (const { item, variable } of handles.bins)
    sum.add(variable, kg(item.unitWeight) * mostFood(item, parts));
  for (const { site, destination, variable } of handles.spares) {
    if (destination === null) sum.add(variable, portionWeight(site));
  }
  if (!scenario.countAvoidablePeel) return sum;
  for (const { item, breakdown, variable } of handles.cuts) {
    const chosen = item.breakdowns.find(({ name }) => name === breakdown);
    if (chosen === undefined) continue;
    const least = Math.min(...item.breakdowns.map((other) => inedibleFraction(other, parts)));
    const excess = inedibleFraction(chosen, parts) - least;
    if (excess > 0) sum.add(variable, excess * kg(item.unitWeight));
  }
  return sum;
}

function mostFood(item: Item, parts: ReadonlyMap<string, Part>): number {
  return Math.max(...item.breakdowns.map((breakdown) => fractionOf(breakdown, parts, ["food"])));
}

function inedibleFraction(breakdown: Breakdown, parts: ReadonlyMap<string, Part>): number {
  return fractionOf(breakdown, parts, ["inedible", "never"]);
}

function fractionOf(
  breakdown: Breakdown,
  parts: ReadonlyMap<string, Part>,
  classes: readonly Part["class"][],
): number {
  return breakdown.yields.reduce((sum, { part, fraction }) => {
    const kind = parts.get(part)?.class;
    return kind !== undefined && classes.includes(kind) ? sum + rate(fraction) : sum;
  }, 0);
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
