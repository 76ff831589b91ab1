import { isSolved } from "./engine.js";
import { kg } from "./floats.js";
import type { Objectives, PlanModel } from "./formulate/index.js";
import { portionWeightRange } from "./formulate/portion-weights.js";
import { leastOf, ModelBuilder, type Row, Sum } from "./model.js";
import { type Engines, solve } from "./solve.js";

/** Most that a plan may have of an aim, beside the one that is made least: kilograms, or currency units. */
export type Bounds = Partial<Readonly<Record<keyof Objectives, number>>>;

/** The model with a row for each bound. */
export function withBounds(plan: PlanModel, bounds: Bounds): PlanModel {
  const rows = Object.entries(plan.objectives).flatMap(([aim, { terms, constant }]): Row[] => {
    const most = Object.entries(bounds).find(([name]) => name === aim)?.[1];
    if (most === undefined || terms.length === 0) return [];
    return [
      {
        name: `${aim} bounded`,
        tag: { family: "bound" },
        terms,
        lower: Number.NEGATIVE_INFINITY,
        upper: most - constant,
      },
    ];
  });
  return { ...plan, model: { ...plan.model, rows: [...plan.model.rows, ...rows] } };
}

export interface NearestOptions {
  readonly engines: Engines;
  readonly seconds: number;
  /** What the plan has of each aim and may not have more of. */
  readonly bounds: Bounds;
  /** A point within the bounds. */
  readonly start: readonly number[];
  /** The point to come near to, variable by variable. */
  readonly to: readonly number[];
}

const GAP = 1e-3;
/** Of the engines, in kilograms and currency units. */
const ROUNDING = 1e-6;

/**
 * Of the plans within bounds, one that buys, cuts, serves and keeps as nearly the same as another plan as can be, by
 * weight: of plans alike in waste and spend, the one that changes least. The start where none is found in the time.
 */
export async function nearestPoint(plan: PlanModel, options: NearestOptions): Promise<readonly number[]> {
  const { engines, seconds, start, to } = options;
  const held = Object.fromEntries(
    Object.entries(options.bounds).map(([aim, most]) => [aim, most + ROUNDING]),
  );
  const { model } = withBounds(plan, held);
  const builder = new ModelBuilder(model);
  const far = new Sum();
  const whole = [...start];
  for (const { variable, weight } of weighed(plan)) {
    const name = builder.nameOf(variable);
    const target = to[variable] ?? 0;
    const tag = { family: "away" };
    const away = builder.variable(tag, `${name}, away`, builder.upperOf(variable) + target);
    far.add(away, weight);
    for (const sign of [1, -1]) {
      const sum = new Sum().add(variable, sign).add(away, -1);
      builder.row(tag, `${name}, ${sign > 0 ? "above" : "below"}`, sum, { upper: sign * target });
    }
    whole.push(Math.abs((start[variable] ?? 0) - target));
  }
  const outcome = await solve(
    { model: builder.build(model.name), objective: leastOf(far) },
    { engines, seconds, gap: GAP, start: whole },
  );
  return isSolved(outcome) ? outcome.point.slice(0, model.variables.length) : start;
}

/** What a cook sees of a plan, each with the kilograms of one unit of it. */
function weighed({ handles }: PlanModel): { variable: number; weight: number }[] {
  return [
    ...handles.buys.map(({ item, variable }) => ({ variable, weight: kg(item.orderUnit.weight) })),
    ...handles.cuts.map(({ item, variable }) => ({ variable, weight: kg(item.unitWeight) })),
    ...handles.serves.map(({ site, variable }) => ({ variable, weight: portionWeightRange(site).least })),
    ...handles.keptItems.map(({ item, variable }) => ({ variable, weight: kg(item.unitWeight) })),
    ...handles.keeps.map(({ variable }) => ({ variable, weight: 1 })),
  ];
}
