import type { Scenario } from "../kitchen/index.js";
import { leastOf, Sum } from "./builder.js";
import { buildModel, type PlanModel } from "./formulate/index.js";
import type { Model, Objective, Row, Tag, Variable } from "./model.js";
import { isSolved } from "./outcome.js";
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
  const { elastic, objective, misses } = elasticOf(model);
  const outcome = await solve({ model: elastic, objective }, { engines, seconds, gap: 0.01 });
  if (!isSolved(outcome)) return [];
  return misses.filter(({ variable }) => (outcome.point[variable] ?? 0) > NOTICEABLE).map(({ tag }) => tag);
}

function elasticOf(model: Model) {
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
