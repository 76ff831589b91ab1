import type { Bounds, NamedPoint, Solved, StageResult } from "../allocation/index.js";
import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type AimValues, notForThisCosting } from "../ledger/index.js";

export interface AgainOptions {
  readonly seconds: number;
  readonly bounds?: Bounds;
  /** A plan to start from, of this scenario or of one like it. */
  readonly start?: NamedPoint;
}

/** A scenario planned again, down to the ledger; or that there is no plan, which is proved; or neither in the time. */
export type PlannedAgain =
  | PlanAgain
  | { readonly kind: "no plan" }
  | { readonly kind: "unknown"; readonly why: string };

export interface PlanAgain {
  readonly kind: "plan";
  readonly plan: PlanJson;
  readonly values: AimValues;
  /** The first stage's value: kilograms for the waste aim, else currency units. */
  readonly objective: number;
  /** What the model counts of each aim, before weights are rounded to the scale. */
  readonly counted: { readonly waste: number; readonly cost: number };
  /** Whether both aims are proved least. */
  readonly proved: boolean;
  readonly point: NamedPoint;
  /** How good it is known to be. */
  readonly found: { readonly first: Solved; readonly stages: readonly StageResult[] };
}

/**
 * Plans a scenario by its aim and then the other of waste and cost, within bounds on them. Rejects with a CostingError
 * where the costing method cannot be applied.
 */
type PlanAgainFunction = (scenario: Scenario, options: AgainOptions) => Promise<PlannedAgain>;

/** Another plan with the same waste and spend that does as nearly as can be what an earlier one does. */
type PlanNearFunction = (
  scenario: Scenario,
  plan: PlanAgain,
  options: { readonly to: NamedPoint; readonly seconds: number },
) => Promise<PlanAgain>;

/** What questions are answered with: it is handed in, as planning is no business of this room. */
export interface Planning {
  readonly again: PlanAgainFunction;
  readonly near: PlanNearFunction;
  /** Most kilograms of a part that any plan could use; null where it is not known in the time. */
  readonly mostUsed: (scenario: Scenario, part: string, seconds: number) => Promise<number | null>;
}

/** A scenario changed on trial, planned again: not known where the costing method cannot be applied to it. */
export async function whereCostingFits(again: Promise<PlannedAgain>): Promise<PlannedAgain> {
  return (
    (await again.catch(notForThisCosting)) ?? { kind: "unknown", why: "the costing method does not fit it" }
  );
}

/** How far a row of questions has come. */
export interface Asked {
  readonly done: number;
  /** How many there are in all, where that is known. */
  readonly of: number | null;
}

/** The time for a row of questions, and how each may share it. */
export class Clock {
  readonly #until: number;

  constructor(seconds: number) {
    this.#until = performance.now() + seconds * 1000;
  }

  get left(): number {
    return Math.max(0, (this.#until - performance.now()) / 1000);
  }

  get isOver(): boolean {
    return this.left <= 0;
  }
}
