import { type Bounds, withBounds } from "./bounds.js";
import {
  type EngineName,
  isSolved,
  type Outcome,
  type Progress,
  relativeGap,
  type Solved,
} from "./engine.js";
import { aimsInOrder, type Objectives, type PlanModel } from "./formulate/index.js";
import { freshest } from "./freshest-blocks.js";
import { type Model, type Objective, valueAt } from "./model.js";
import { type Engines, solve } from "./solve.js";

/** Stage 1 is proved to this relative gap to be called optimal. */
export const PROOF_GAP = 1e-6;
const LATER_GAP = 1e-4;
/** A later stage may give up this much of an earlier aim: half a gram, or a thousandth of the currency unit. */
const HELD_WITHIN = { waste: 0.0005, cost: 0.001, balanced: 0.001 };
/** Most seconds for the freshest plan: a few hours fresher are not worth a longer wait. */
const FRESHEST_SECONDS = 1.5;
/** Most seconds for taking back what later stages gave up of proved least waste. */
const TIGHT_SECONDS = 0.5;
/** A first point is waited for so long at least: a little late, it is better than no answer. */
const SECONDS_TO_FIRST = 0.4;
/** No later stage is begun with less time: an engine would not come to an answer. */
const LEAST_SECONDS = 0.05;
/** Of the engines, in kilograms or currency units, for each unit of 1 + |value|. */
const ROUNDING = 1e-6;
/** Weights below a milligram are rounding dust of the engines. */
const DUST = 1e-6;

export interface StageResult {
  readonly aim: string;
  readonly value: number;
  readonly bound: number;
  readonly gap: number;
  readonly engine: EngineName;
  /** How much of it a later stage may give up. */
  readonly heldWithin: number;
}

export interface PlanPoint {
  readonly plan: PlanModel;
  readonly point: readonly number[];
}

export type Staged =
  | {
      readonly kind: "planned";
      readonly first: Solved;
      readonly stages: readonly StageResult[];
      /** The model that the point is one of, which may have more cuts to choose from than the one asked about. */
      readonly plan: PlanModel;
      readonly point: readonly number[];
      /** Where the freshest was sought: the plan before, which may stand where the ledger does not let that one. */
      readonly before: PlanPoint | null;
    }
  | { readonly kind: "none"; readonly first: Exclude<Outcome, Solved> };

export interface StageOptions {
  readonly engines: Engines;
  readonly engine?: EngineName;
  /** Seconds for all stages together. */
  readonly seconds: number;
  /** Where the first stage may start from. It need not keep to every row. */
  readonly start?: readonly number[];
  /** Leaves out the freshest plan, where plans are only compared. */
  readonly figuresOnly?: boolean;
  readonly onProgress?: (stage: string, progress: Progress) => void;
}

/**
 * Solves the aims in order, each holding the ones before: the scenario's own, the other of waste and cost, then
 * freshness. The first says whether there is a plan; a later one without time leaves it as it was. What was given up
 * of proved least waste is taken back at the end.
 */
export async function solveStages(plan: PlanModel, options: StageOptions): Promise<Staged> {
  const until = performance.now() + options.seconds * 1000;
  const left = () => Math.max(0, (until - performance.now()) / 1000);
  const isInTime = () => left() >= LEAST_SECONDS;
  const [aim, second] = aimsInOrder(plan.scenario) as [keyof Objectives, keyof Objectives];
  const ask = (model: Model, objective: Objective, stage: string, effort: Effort): Promise<Outcome> =>
    solve(
      { model, objective },
      {
        engines: options.engines,
        seconds: Math.min(effort.most ?? Number.POSITIVE_INFINITY, left() * effort.share),
        ...(effort.toFirst === undefined
          ? {}
          : { secondsToFirst: Math.max(SECONDS_TO_FIRST, left() * effort.toFirst) }),
        gap: effort.gap,
        ...(options.engine === undefined ? {} : { engine: options.engine }),
        ...(effort.start === undefined ? {} : { start: effort.start }),
        ...(options.onProgress === undefined
          ? {}
          : { onProgress: (progress: Progress) => options.onProgress?.(stage, progress) }),
      },
    );

  let first = await ask(plan.model, plan.objectives[aim], aim, {
    share: 0.8,
    toFirst: 0.97,
    gap: PROOF_GAP,
    ...(options.start === undefined ? {} : { start: options.start }),
  });
  if (!isSolved(first)) return { kind: "none", first };
  let point = first.point;
  const stages = [stageOf(aim, first, PROOF_GAP)];

  const effort = { share: 0.6, gap: LATER_GAP, start: point };
  const then = isInTime()
    ? await ask(withBounds(plan, boundsOf(stages)).model, plan.objectives[second], second, effort)
    : null;
  if (then !== null && isSolved(then)) {
    point = then.point;
    stages.push(stageOf(second, then, LATER_GAP));
    first = anchoredAgain(first, valueAt(plan.objectives[aim], point), point);
    stages[0] = stageOf(aim, first, PROOF_GAP);
  }

  let latest = plan;
  let before: PlanPoint | null = null;
  if (options.figuresOnly !== true && isInTime()) {
    const solved = ([aim, second] as const).slice(0, stages.length);
    const bounds = boundsAt(plan, solved, point);
    const fresh = await freshest(plan, point, {
      seconds: Math.min(FRESHEST_SECONDS, left() * 0.8),
      held: (every) => withBounds(every, bounds).model,
      ask: ({ model, objective }, start, most) =>
        ask(model, objective, "freshest", { share: 1, most, gap: LATER_GAP, start }),
    });
    if (fresh !== null) {
      before = { plan, point };
      latest = fresh.plan;
      point = fresh.point;
      stages.push(stageOf("freshest", fresh.solved, LATER_GAP));
    }
  }
  const reached = valueAt(latest.objectives[aim], point);
  const gaveUp = relativeGap(reached, first.objective) > PROOF_GAP;
  if (aim === "waste" && first.kind === "optimal" && gaveUp && options.figuresOnly !== true && isInTime()) {
    const tight = await ask(
      countsHeld(withBounds(latest, boundsOf(stages)).model, point),
      latest.objectives[aim],
      aim,
      {
        share: 0.5,
        most: TIGHT_SECONDS,
        gap: PROOF_GAP,
        start: point,
      },
    );
    if (isSolved(tight)) point = tight.point;
  }
  first = anchoredAgain(first, valueAt(latest.objectives[aim], point), point);
  stages[0] = stageOf(aim, first, PROOF_GAP);
  return { kind: "planned", first, stages, plan: latest, point, before };
}

/**
 * How hard a stage is tried: its share of the time left, another while it has no point, at most so many seconds, to
 * this gap, from a start.
 */
interface Effort {
  readonly share: number;
  readonly toFirst?: number;
  readonly most?: number;
  readonly gap: number;
  readonly start?: readonly number[];
}

function stageOf(aim: string, { objective, bound, gap, engine }: Solved, asked: number): StageResult {
  const within = Object.entries(HELD_WITHIN).find(([name]) => name === aim)?.[1] ?? 0;
  const heldWithin =
    gap <= asked ? Math.max(within, (asked === PROOF_GAP ? gap : asked) * Math.abs(objective)) : within;
  return { aim, value: objective, bound, gap, engine, heldWithin };
}

/** What an unproved first stage is worth at the point a later one came to; where that is better, it counts too. */
function anchoredAgain(first: Solved, value: number, point: readonly number[]): Solved {
  if (first.kind === "optimal") return first;
  return { ...first, objective: value, point, gap: relativeGap(value, first.bound) };
}

/** The model with every whole number, and every going that is not made, as a point has it. */
function countsHeld(model: Model, point: readonly number[]): Model {
  const variables = model.variables.map((variable, index) => {
    const value = point[index] ?? 0;
    if (variable.integer) return { ...variable, lower: Math.round(value), upper: Math.round(value) };
    return value <= DUST && variable.tag.family === "go" ? { ...variable, upper: variable.lower } : variable;
  });
  return { ...model, variables };
}

/** What stages reached, with what later ones may give up of it. */
function boundsOf(stages: readonly StageResult[]): Bounds {
  return Object.fromEntries(stages.map(({ aim, value, heldWithin }) => [aim, value + heldWithin]));
}

/** What a point has of the aims, of which nothing is to be given up for freshness but the engines' rounding. */
function boundsAt(
  { objectives }: PlanModel,
  aims: readonly (keyof Objectives)[],
  point: readonly number[],
): Bounds {
  return Object.fromEntries(
    aims.map((aim) => {
      const value = valueAt(objectives[aim], point);
      return [aim, value + ROUNDING * (1 + Math.abs(value))];
    }),
  );
}
