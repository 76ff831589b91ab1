import { certify } from "./certify.js";
import type { Question } from "./engine.js";
import type { PlanModel } from "./formulate/index.js";
import { blockQuestion, blocksOf } from "./fresh-blocks.js";
import { type FreshestQuestion, freshestQuestion, withEveryLot } from "./freshest.js";
import { type Model, valueAt } from "./model.js";
import { isSolved, type Outcome, relativeGap, type Solved, type Stop } from "./outcome.js";

/** With more whole numbers it is made fresher block by block first, and with yet more by nothing else. */
const FEW = 60;
const MANY = 300;
/** No block is begun with less time. */
const LEAST_SECONDS = 0.03;
/** One block may take such a part of the time left. */
const SHARE = 0.5;
const SMALLEST_GAIN = 1e-6;

export interface Freshest {
  /** The plan's model with every cut in it, which the point is one of. */
  readonly plan: PlanModel;
  readonly point: readonly number[];
  readonly solved: Solved;
}

export interface FreshestOptions {
  readonly seconds: number;
  /** The model with rows that hold the aims. */
  readonly held: (plan: PlanModel) => Model;
  readonly ask: (question: Question, start: readonly number[], seconds: number) => Promise<Outcome>;
}

/**
 * The freshest of the plans that are otherwise as the point is: see `freshestQuestion`. Null where none was found in
 * the time. Where there is too much to settle at once it is made fresher block by block, and nothing is proved.
 */
export async function freshest(
  known: PlanModel,
  at: readonly number[],
  options: FreshestOptions,
): Promise<Freshest | null> {
  const until = performance.now() + options.seconds * 1000;
  const left = (): number => (until - performance.now()) / 1000;
  const { plan, point } = withEveryLot(known, at);
  const question = freshestQuestion(plan, options.held(plan), point);
  const wholes = question.model.variables.filter(({ integer, lower, upper }) => integer && lower < upper);
  const fresher = wholes.length > FEW ? await byBlocks(plan, question, left, options.ask) : null;
  const start = fresher?.point ?? question.start;
  const proved =
    wholes.length <= MANY && left() >= LEAST_SECONDS ? await options.ask(question, start, left()) : null;
  const solved = betterOf(fresher, proved);
  if (solved === null) return null;
  return { plan, point: solved.point.slice(0, plan.model.variables.length), solved };
}

/** The better point with what was proved. */
function betterOf(fresher: Solved | null, proved: Outcome | null): Solved | null {
  if (proved === null || !isSolved(proved)) return fresher;
  if (fresher === null || proved.objective <= fresher.objective) return proved;
  const { bound } = proved;
  return { ...fresher, bound, gap: relativeGap(fresher.objective, bound) };
}

async function byBlocks(
  plan: PlanModel,
  question: FreshestQuestion,
  left: () => number,
  ask: FreshestOptions["ask"],
): Promise<Solved | null> {
  const { model, objective } = question;
  const stands = (point: readonly number[]): boolean =>
    certify(model, objective, point, valueAt(objective, point)).certified;
  let point = question.start;
  let engine: Solved["engine"] | null = null;
  let seconds = 0;
  if (!stands(point)) return null;
  for (const block of blocksOf(plan, question, point)) {
    if (left() < LEAST_SECONDS) break;
    const part = blockQuestion(question, point, block);
    const outcome = await ask(part, part.start, SHARE * left());
    seconds += outcome.seconds;
    if (!isSolved(outcome)) continue;
    engine = outcome.engine;
    const better = part.whole(outcome.point);
    if (valueAt(objective, better) < valueAt(objective, point) - SMALLEST_GAIN && stands(better))
      point = better;
  }
  if (engine === null) return null;
  const value = valueAt(objective, point);
  // No part of it can be less than nothing.
  const bound = 0;
  const gap = relativeGap(value, bound);
  const stoppedBy: Stop = { code: "size", words: "its size" };
  return { kind: "feasible", engine, point, objective: value, bound, gap, seconds, stoppedBy };
}
