import type { Scenario } from "../kitchen/index.js";
import { grams, NO_MONEY, times, type Weight } from "../quantity/index.js";
import { Sum } from "./builder.js";
import type { FeasibilityOptions } from "./feasibility.js";
import { kg } from "./floats.js";
import { buildModel } from "./formulate/index.js";
import type { LotNode } from "./network.js";
import { isSolved } from "./outcome.js";
import { solve } from "./solve.js";

/** More of a part than any kitchen uses. */
const PLENTY = grams("1000000");
const GAP = 1e-6;

/**
 * Most kilograms of a part that any plan of the scenario could put into dishes, further steps and permitted stock, were
 * there plenty of it, fresh on each day. Null where it is not known in the time, or where a step makes several foods of
 * it: as much is then used as the most wanted of them asks for, which this does not count.
 */
export async function mostUsed(
  scenario: Scenario,
  part: string,
  { engines, seconds }: FeasibilityOptions,
): Promise<number | null> {
  if (makesSeveralFoods(scenario, part)) return null;
  const plan = buildModel(withPlenty(scenario, part));
  const isOfPlenty = ({ origin }: LotNode): boolean =>
    origin.kind === "onHand" && origin.index === scenario.partsOnHand.length;
  const isPlenty = (lot: LotNode): boolean => isOfPlenty(lot) && lot.part === part;
  const sum = new Sum();
  for (const { lot, variable, unit } of plan.handles.goes) if (isPlenty(lot)) sum.add(variable, unit);
  for (const { from, variable } of plan.handles.draws) {
    const piece = from.kind.pieceWeight;
    if (isPlenty(from)) sum.add(variable, piece === null ? 1 : kg(piece));
  }
  for (const { lot, variable } of plan.handles.keeps) if (isPlenty(lot)) sum.add(variable, 1);
  // What a step makes of it and nobody takes is no use either.
  for (const { lot, variable } of [...plan.handles.wastes, ...plan.handles.gives])
    if (isOfPlenty(lot) && !isPlenty(lot)) sum.add(variable, -1);
  const objective = { sense: "most" as const, terms: sum.terms(), constant: 0 };
  if (objective.terms.length === 0) return 0;
  const outcome = await solve({ model: plan.model, objective }, { engines, seconds, gap: GAP });
  return isSolved(outcome) && outcome.kind === "optimal" ? outcome.objective : null;
}

function makesSeveralFoods({ steps, parts }: Scenario, part: string): boolean {
  const made = new Set([part]);
  const isFood = (name: string): boolean => parts.some((each) => each.name === name && each.class === "food");
  for (const name of made) {
    for (const { from, yields } of steps) {
      if (!from.includes(name)) continue;
      const foods = yields.filter((each) => isFood(each.part));
      if (foods.length > 1) return true;
      for (const food of foods) made.add(food.part);
    }
  }
  return false;
}

function withPlenty(scenario: Scenario, part: string): Scenario {
  const piece = scenario.parts.find(({ name }) => name === part)?.pieceWeight ?? null;
  const { frozen: _, ...limits } = scenario.limits;
  const weight: Weight = piece === null ? PLENTY : times(piece, PLENTY / piece);
  const everything = { food: true, inedible: true, portions: true };
  return {
    ...scenario,
    partsOnHand: [...scenario.partsOnHand, { part, weight, value: NO_MONEY, useBy: null, lastDay: null }],
    destinations: [
      ...scenario.destinations,
      { name: "left of plenty", kind: "landfill", end: "waste", takes: everything, limit: null },
    ],
    limits: { ...limits, chilled: null },
  };
}
