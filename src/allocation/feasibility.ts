import type { Scenario } from "../kitchen/index.js";
import { grams, NO_MONEY, times, type Weight } from "../quantity/index.js";
import { isSolved } from "./engine.js";
import { kg } from "./floats.js";
import { buildModel, type PlanModel } from "./formulate/index.js";
import type { LotNode } from "./lot-graph.js";
import { leastOf, type Model, type Objective, type Row, Sum, type Tag, type Variable } from "./model.js";
import { type Engines, solve } from "./solve.js";
import type { Staged } from "./stages.js";

export interface FeasibilityOptions {
  readonly engines: Engines;
  readonly seconds: number;
}

const NO_AIM: Objective = { sense: "least", terms: [], constant: 0 };
/** Rows that say what the parts are, not what is asked: these are never what a cook could change. */
const NATURE = new Set([
  "item balance",
  "part balance",
  "worked for use",
  "batch",
  "made",
  "item life",
  "price break",
  "order",
]);
const LARGEST_MISS = 1e4;
const NOTICEABLE = 1e-6;

/** Any point of a plan's model, whatever it wastes or costs. */
export async function anyPoint(plan: PlanModel, { engines, seconds }: FeasibilityOptions): Promise<Staged> {
  const first = await solve({ model: plan.model, objective: NO_AIM }, { engines, seconds, gap: 1 });
  return isSolved(first)
    ? { kind: "planned", first, stages: [], plan, point: first.point, before: null }
    : { kind: "none", first };
}

/**
 * What a scenario without a plan asks too much of: the tags of the rows that must be missed when they are missed
 * by as little as can be, each counted against its own size.
 */
export async function culpritsOf(
  scenario: Scenario,
  { engines, seconds }: FeasibilityOptions,
): Promise<Tag[]> {
  const { model } = buildModel(scenario);
  const { elastic, objective, misses } = relaxedWithPenalties(model);
  const outcome = await solve({ model: elastic, objective }, { engines, seconds, gap: 0.01 });
  if (!isSolved(outcome)) return [];
  return misses.filter(({ variable }) => (outcome.point[variable] ?? 0) > NOTICEABLE).map(({ tag }) => tag);
}

function relaxedWithPenalties(model: Model) {
  const variables: Variable[] = [...model.variables];
  const misses: { tag: Tag; variable: number }[] = [];
  const sum = new Sum();
  const miss = (row: Row, direction: string): number => {
    const name = `${row.name}, ${direction}`;
    const variable =
      variables.push({
        name,
        tag: { ...row.tag, family: "miss" },
        lower: 0,
        upper: LARGEST_MISS,
        integer: false,
      }) - 1;
    misses.push({ tag: row.tag, variable });
    sum.add(variable, 1 / sizeOf(row));
    return variable;
  };
  const rows = model.rows.map((row) => {
    // A course may be missed by some of its portions, too.
    if (row.tag.family === "all or none") return { ...row, lower: Number.NEGATIVE_INFINITY };
    if (NATURE.has(row.tag.family)) return row;
    const terms = [...row.terms];
    if (Number.isFinite(row.lower)) terms.push({ variable: miss(row, "short"), coefficient: 1 });
    if (Number.isFinite(row.upper)) terms.push({ variable: miss(row, "over"), coefficient: -1 });
    return { ...row, terms };
  });
  return { elastic: { ...model, variables, rows }, objective: leastOf(sum), misses };
}

function sizeOf({ lower, upper }: Row): number {
  const sides = [lower, upper].filter((side) => Number.isFinite(side)).map(Math.abs);
  return Math.max(0.1, ...sides);
}

/** More of a part than any kitchen uses. */
const PLENTY = grams("1000000");
const GAP = 1e-6;

/**
 * Most kilograms of a part that any plan of the scenario could put to use, were there plenty of it, fresh on each day.
 * Null where it is not known in the time, or where a step makes several foods of it, as the most wanted of them would
 * count alone.
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
