import { aimsInOrder, type Objectives, type PlanModel } from "./build/index.js";
import { leastOf, Sum } from "./builder.js";
import type { Progress } from "./engine.js";
import { groupBy } from "./group.js";
import { type Model, type Objective, type Term, type Variable, valueAt } from "./model.js";
import { type EngineName, type Outcome, relativeGap, type Solved } from "./outcome.js";
import { type Engines, solve } from "./solve.js";

/** Stage 1 is proved to this relative gap to be called optimal. */
export const PROOF_GAP = 1e-6;
const LATER_GAP = 1e-4;
/** A later stage may give up this much of an earlier aim: half a gram, or a thousandth of the currency unit. */
const HELD_WITHIN = { waste: 0.0005, cost: 0.001, balanced: 0.001 };
const SIMPLEST_GAP = 1e-3;
/** Most seconds for the simplest plan: a few goings fewer are not worth a longer wait. */
const SIMPLEST_SECONDS = 1.5;
/** Most seconds for taking back what later stages gave up of proved least waste. */
const TIGHT_SECONDS = 0.5;
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

export type Staged =
  | {
      readonly kind: "planned";
      readonly first: Solved;
      readonly stages: readonly StageResult[];
      readonly point: readonly number[];
    }
  | { readonly kind: "none"; readonly first: Exclude<Outcome, Solved> };

export interface StageOptions {
  readonly engines: Engines;
  readonly engine?: EngineName;
  /** Seconds for all stages together. */
  readonly seconds: number;
  /** Where the first stage may start from. It need not keep to every row. */
  readonly start?: readonly number[];
  /** Leaves out the plan that is simplest to follow, where plans are only compared. */
  readonly figuresOnly?: boolean;
  readonly onProgress?: (stage: string, progress: Progress) => void;
}

/**
 * Solves the aims in order, each holding the ones before: the scenario's own, then the other of waste and cost,
 * then the plan that is simplest to follow with the same purchases, cuts and portions. The first stage says
 * whether there is a plan; a later one that runs out of time leaves the plan as the one before it had it. What later
 * stages gave up of proved least waste, up to half a gram, is taken back at the end with every count as it is: it is
 * printed to the gram, and is to be the same whichever engine answered in time.
 */
export async function solveStages(plan: PlanModel, options: StageOptions): Promise<Staged> {
  const until = performance.now() + options.seconds * 1000;
  const left = () => Math.max(0.05, (until - performance.now()) / 1000);
  const [aim, second] = aimsInOrder(plan.scenario) as [keyof Objectives, keyof Objectives];
  const ask = (model: Model, objective: Objective, stage: string, effort: Effort): Promise<Outcome> =>
    solve(
      { model, objective },
      {
        engines: options.engines,
        seconds: Math.min(effort.most ?? Number.POSITIVE_INFINITY, left() * effort.share),
        ...(effort.toFirst === undefined ? {} : { secondsToFirst: left() * effort.toFirst }),
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
  const then = await ask(held(plan, stages), plan.objectives[second], second, effort);
  if (isSolved(then)) {
    point = then.point;
    stages.push(stageOf(second, then, LATER_GAP));
    first = anchoredAgain(first, valueAt(plan.objectives[aim], point), point);
    stages[0] = stageOf(aim, first, PROOF_GAP);
  }

  const simple = options.figuresOnly === true ? null : simplestModel(plan, held(plan, stages), point);
  if (simple !== null) {
    const last = await ask(simple.model, simple.objective, "simplest", {
      share: 0.8,
      most: SIMPLEST_SECONDS,
      gap: SIMPLEST_GAP,
      start: simple.start,
    });
    if (isSolved(last)) {
      point = last.point.slice(0, plan.model.variables.length);
      stages.push(stageOf("simplest", last, SIMPLEST_GAP));
    }
  }
  const reached = valueAt(plan.objectives[aim], point);
  const gaveUp = relativeGap(reached, first.objective) > PROOF_GAP;
  if (aim === "waste" && first.kind === "optimal" && gaveUp && options.figuresOnly !== true) {
    const tight = await ask(countsHeld(held(plan, stages), point), plan.objectives[aim], aim, {
      share: 0.5,
      most: TIGHT_SECONDS,
      gap: PROOF_GAP,
      start: point,
    });
    if (isSolved(tight)) point = tight.point;
  }
  first = anchoredAgain(first, valueAt(plan.objectives[aim], point), point);
  stages[0] = stageOf(aim, first, PROOF_GAP);
  return { kind: "planned", first, stages, point };
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

export function isSolved(outcome: Outcome): outcome is Solved {
  return outcome.kind === "optimal" || outcome.kind === "feasible";
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

/** The model with every solved aim held. */
function held({ model, objectives }: PlanModel, stages: readonly StageResult[]): Model {
  const rows = stages.flatMap(({ aim, value, heldWithin }) => {
    const objective = Object.entries(objectives).find(([name]) => name === aim)?.[1];
    if (objective === undefined || objective.terms.length === 0) return [];
    const upper = value + heldWithin - objective.constant;
    const row = {
      name: `${aim} held`,
      tag: { family: "held" },
      terms: objective.terms,
      lower: Number.NEGATIVE_INFINITY,
    };
    return [{ ...row, upper }];
  });
  return { ...model, rows: [...model.rows, ...rows] };
}

/**
 * Fewest goings of a part into a dish, with every whole number (purchases, cuts, batches, portions) as it is.
 * Null where no line has a choice.
 */
function simplestModel(plan: PlanModel, model: Model, point: readonly number[]) {
  const goes = groupBy(plan.handles.goes, ({ site, line }) => `${site.dish.name} ${site.service} ${line}`)
    .entries()
    .filter(([, rivals]) => rivals.length > 1)
    .flatMap(([, rivals]) => rivals.filter(({ variable }) => (model.variables[variable]?.upper ?? 0) > 0));
  if (goes.length === 0) return null;
  const free = new Set([...plan.handles.goes, ...plan.handles.draws].map(({ variable }) => variable));
  const variables: Variable[] = model.variables.map((variable, index) => {
    const value = point[index] ?? 0;
    return variable.integer && !free.has(index) ? { ...variable, lower: value, upper: value } : variable;
  });
  const rows = [...model.rows];
  const count = new Sum();
  const start = [...point];
  for (const { variable } of goes) {
    const { name, upper, tag } = model.variables[variable] as Variable;
    const used =
      variables.push({
        name: `${name}, used`,
        tag: { ...tag, family: "used" },
        lower: 0,
        upper: 1,
        integer: true,
      }) - 1;
    const terms: Term[] = [
      { variable, coefficient: 1 / upper },
      { variable: used, coefficient: -1 },
    ];
    rows.push({
      name: `${name}, only if used`,
      tag: { family: "used" },
      terms,
      lower: Number.NEGATIVE_INFINITY,
      upper: 0,
    });
    count.add(used, 1);
    start.push((point[variable] ?? 0) > DUST ? 1 : 0);
  }
  return { model: { ...model, variables, rows }, objective: leastOf(count), start };
}
