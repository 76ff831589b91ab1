import { certify } from "./certify.js";
import { isSolved, type Outcome, type Question, relativeGap, type Solved, type Stop } from "./engine.js";
import type { PlanModel } from "./formulate/index.js";
import { type FreshestQuestion, freshestQuestion, withEveryLot } from "./freshest.js";
import { type Model, valueAt } from "./model.js";

/** A question about some variables of a model, the others staying as a point has them. */
export interface BlockQuestion extends Question {
  readonly start: readonly number[];
  /** The point with an answer set into it. */
  whole(point: readonly number[]): number[];
}

/**
 * The variables of a question that must be settled together: those of items that share a part, in blocks; the last
 * block is all that moves when every cut and purchase stays. Those first that have the most to gain.
 */
export function blocksOf(
  { scenario }: PlanModel,
  { model, objective }: FreshestQuestion,
  point: readonly number[],
): number[][] {
  const links = new Links();
  for (const { name, breakdowns } of scenario.items)
    for (const { part } of breakdowns.flatMap(({ yields }) => yields)) links.join(itemKey(name), part);
  for (const { from, yields } of scenario.steps)
    for (const source of from) for (const { part } of yields) links.join(source, part);
  const costs = new Map(objective.terms.map(({ variable, coefficient }) => [variable, coefficient]));
  const blocks = new Map<string, { columns: number[]; value: number }>();
  const rest: number[] = [];
  model.variables.forEach(({ tag, lower, upper }, index) => {
    if (lower === upper) return;
    const name = tag.part ?? (tag.item === undefined ? null : itemKey(tag.item));
    if (!CUTTING.has(tag.family) && !(tag.family === "used" && tag.breakdown !== undefined)) rest.push(index);
    if (name === null) return;
    const key = links.of(name);
    const block = blocks.get(key) ?? { columns: [], value: 0 };
    block.columns.push(index);
    block.value += (costs.get(index) ?? 0) * (point[index] ?? 0);
    blocks.set(key, block);
  });
  const inOrder = [...blocks.values()].sort((a, b) => b.value - a.value);
  return [...inOrder.filter(({ value }) => value > 0).map(({ columns }) => columns), rest];
}

const CUTTING = new Set(["cut", "buy", "bin", "keep item", "stay item", "stock"]);

/** Items and parts have names of their own. */
function itemKey(name: string): string {
  return `item | ${name}`;
}

/** Names joined, directly or through others, are of one group. */
class Links {
  readonly #parent = new Map<string, string>();

  of(name: string): string {
    let root = name;
    for (let next = this.#parent.get(root); next !== undefined; next = this.#parent.get(root)) root = next;
    return root;
  }

  join(one: string, other: string): void {
    const [first, second] = [this.of(one), this.of(other)];
    if (first !== second) this.#parent.set(first, second);
  }
}

/** The rows that touch the block, with its variables alone: what the others come to moves to the sides of the rows. */
export function blockQuestion(
  { model, objective }: Question,
  point: readonly number[],
  block: readonly number[],
): BlockQuestion {
  const indexOf = new Map(block.map((variable, index) => [variable, index]));
  const reduced = (terms: Question["objective"]["terms"]) => {
    let fixed = 0;
    const free = terms.flatMap(({ variable, coefficient }) => {
      const at = indexOf.get(variable);
      if (at !== undefined) return [{ variable: at, coefficient }];
      fixed += coefficient * (point[variable] ?? 0);
      return [];
    });
    return { free, fixed };
  };
  const rows: Model["rows"] = model.rows.flatMap((row) => {
    const { free, fixed } = reduced(row.terms);
    return free.length === 0
      ? []
      : [{ ...row, terms: free, lower: row.lower - fixed, upper: row.upper - fixed }];
  });
  const { free, fixed } = reduced(objective.terms);
  const variables = block.flatMap((variable) => model.variables[variable] ?? []);
  return {
    model: { name: model.name, variables, rows },
    objective: { ...objective, terms: free, constant: objective.constant + fixed },
    start: block.map((variable) => point[variable] ?? 0),
    whole: (answer) => {
      const all = [...point];
      block.forEach((variable, index) => {
        all[variable] = answer[index] ?? 0;
      });
      return all;
    },
  };
}

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
