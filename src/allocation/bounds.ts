import type { Objectives, PlanModel } from "./formulate/index.js";
import type { Row } from "./model.js";

/** Most that a plan may have of an aim, beside the one that is made least: kilograms, or currency units. */
export type Bounds = Partial<Readonly<Record<keyof Objectives, number>>>;

/** The model with a row for each bound. */
export function withBounds(plan: PlanModel, bounds: Bounds): PlanModel {
  const rows = Object.entries(plan.objectives).flatMap(([aim, { terms, constant }]): Row[] => {
    const most = Object.entries(bounds).find(([name]) => name === aim)?.[1];
    if (most === undefined) return [];
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
