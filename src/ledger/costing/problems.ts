import { COSTING_METHODS, type Scenario } from "../../kitchen/index.js";
import type { CostingProblem } from "../errors.js";
import { words } from "../words.js";

/**
 * What keeps the scenario's costing method from being applied, whatever is planned: costing by sales value needs
 * the market value of every food part that any of its breakdowns gives. Empty when nothing is missing.
 */
export function costingProblems(scenario: Scenario): CostingProblem[] {
  if (COSTING_METHODS[scenario.costing].needsValueOf !== "every food part") return [];
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  return scenario.items.flatMap((item) => {
    const names = item.breakdowns.flatMap(({ yields }) => yields.map(({ part }) => part));
    return [...new Set(names)]
      .filter((name) => parts.get(name)?.class === "food" && parts.get(name)?.marketValue === null)
      .map((part) => ({
        code: "costing/no-market-value" as const,
        item: item.name,
        part,
        ...words.noMarketValue(part, item.name, scenario.costing),
      }));
  });
}
