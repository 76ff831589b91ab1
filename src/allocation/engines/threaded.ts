import {
  type Engine,
  type EngineName,
  type Outcome,
  type Progress,
  type Question,
  relativeGap,
  type SolveLimits,
  type Stop,
} from "../engine.js";
import { faultOf, type Matrix, scaleOf, snapped, termsOf, toMatrix } from "../matrix.js";
import { type Ask, type Ending, type Proposal, Threads, threadFile, type Verdict } from "./threads.js";

/** Why an engine must not be asked this, as a sentence, or null. */
export type Refusal = (matrix: Matrix) => string | null;

/** The channel of the other threads at the question, and the seconds that the whole question was asked for, as its deadline is told. */
interface Partnership {
  readonly channel: string | null;
  readonly askedSeconds: number;
}

/**
 * An engine in a thread of its own. The best proposal seen is kept here, so that a thread ended at its
 * deadline still leaves what it had found.
 */
export class ThreadedEngine implements Engine {
  readonly name: EngineName;
  readonly #refuse: Refusal;
  readonly #threads: Threads<Ask>;

  constructor(name: EngineName, file: URL, refuse: Refusal) {
    this.name = name;
    this.#refuse = refuse;
    this.#threads = new Threads(file);
  }

  warm(): void {
    this.#threads.warm();
  }

  solve(question: Question, limits: SolveLimits): Promise<Outcome> {
    return this.solveBeside({ channel: null, askedSeconds: limits.seconds }, question, limits);
  }

  /** The same beside other threads, to which its better points are told and from which it takes them. */
  async solveBeside(
    { channel, askedSeconds }: Partnership,
    question: Question,
    limits: SolveLimits,
  ): Promise<Outcome> {
    const began = performance.now();
    const seconds = () => (performance.now() - began) / 1000;
    const fault = faultOf(question);
    if (fault !== null) return this.#failed(fault, seconds());
    const matrix = toMatrix(question);
    const refusal = this.#refuse(matrix);
    if (refusal !== null) return this.#failed(refusal, seconds());

    let held: Proposal | null = null;
    let progress: Omit<Progress, "seconds"> = { best: null, bound: null };
    const report = (news: Partial<Progress>) => {
      progress = { ...progress, ...news };
      limits.onProgress?.({ ...progress, seconds: seconds() });
    };
    const ending = await this.#threads.ask(
      {
        matrix,
        gap: limits.gap,
        until: Date.now() + Math.max(limits.seconds, limits.secondsToFirst ?? 0) * 1000,
        enough: Date.now() + limits.seconds * 1000,
        start: limits.start === undefined ? null : Float64Array.from(limits.start),
        channel,
      },
      (news) => {
        if (news.kind === "proposal") {
          held = news.proposal;
          report({ best: news.proposal.objective });
        } else if (news.kind === "progress")
          report({ best: news.best ?? progress.best, bound: news.bound ?? progress.bound });
      },
    );
    const open = matrix.most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
    const verdict = verdictOf(ending, held, progress.bound ?? open, askedSeconds);
    if (verdict.kind === "failed") return this.#failed(verdict.reason, seconds(), verdict.stoppedBy);
    if (verdict.kind !== "solved") return { kind: verdict.kind, engine: this.name, seconds: seconds() };
    const { point, objective, bound, stoppedBy } = verdict;
    const gap = relativeGap(objective, bound);
    const proved = stoppedBy === null || gap <= limits.gap;
    return {
      kind: proved ? "optimal" : "feasible",
      engine: this.name,
      point: snapped(point, matrix.whole),
      objective,
      bound,
      gap,
      seconds: seconds(),
      stoppedBy: proved ? null : stoppedBy,
    };
  }

  close(): Promise<void> {
    return this.#threads.close();
  }

  #failed(reason: string, seconds: number, stoppedBy: Stop | null = null): Outcome {
    return { kind: "failed", engine: this.name, seconds, reason, stoppedBy };
  }
}

/** What a thread said; of one that was ended before, the best proposal that it had made. */
function verdictOf(ending: Ending, held: Proposal | null, bound: number, askedSeconds: number): Verdict {
  if (ending.kind === "verdict") return ending.verdict;
  const stoppedBy: Stop =
    ending.kind === "deadline"
      ? { code: "time", words: `the deadline of ${Number(askedSeconds.toFixed(1))} s` }
      : { code: "breakdown", words: `a breakdown: ${ending.reason}` };
  if (held === null) return { kind: "failed", reason: `${stoppedBy.words}, without any point`, stoppedBy };
  return { kind: "solved", ...held, bound, stoppedBy };
}

/** It takes larger coefficients for infinite; smaller ones than it keeps are left out of every matrix. */
const INFINITE_FOR_HIGHS = 1e15;

/** For plans of any size. Its "infeasible" and "unbounded" hold without presolve too. */
export class Highs extends ThreadedEngine {
  constructor(file = threadFile("highs-worker", import.meta.url)) {
    super("highs", file, refusalOf);
  }
}

/** Why HiGHS must not be asked this. */
export function refusalOf(matrix: Matrix): string | null {
  for (const values of [matrix.values, matrix.cost])
    for (const value of values) {
      if (Math.abs(value) >= INFINITE_FOR_HIGHS) return `it must not be asked about the coefficient ${value}`;
    }
  return null;
}

const LEAST_COEFFICIENT = 0.001;
const MOST_COEFFICIENT = 10_000;
const MOST_SIDE = 1e8;

/** For small plans. Its "infeasible" and "unbounded" are claims, to be confirmed by HiGHS. */
export class JavascriptLpSolver extends ThreadedEngine {
  constructor(file = threadFile("jslp-worker", import.meta.url)) {
    super("javascript-lp-solver", file, refusal);
  }
}

/**
 * Its free variables give wrong optima, and widely scaled rows false infeasibility; a row is rescaled by a
 * power of two first, so only the spread inside a row, or of the objective, counts.
 */
function refusal(matrix: Matrix): string | null {
  if (matrix.lower.includes(Number.NEGATIVE_INFINITY)) return "it must not be asked about free variables";
  for (let row = 0; row < matrix.rowLower.length; row += 1) {
    const values = [...termsOf(matrix, row)].map(([, value]) => value);
    if (!isWithinReach(values)) return "it must not be asked about coefficients so far apart in one row";
    const scale = scaleOf(values);
    for (const side of [matrix.rowLower[row] ?? 0, matrix.rowUpper[row] ?? 0])
      if (Number.isFinite(side) && Math.abs(side) * scale > MOST_SIDE)
        return "it must not be asked about a row so far from its coefficients";
  }
  if (!isWithinReach(matrix.cost)) return "it must not be asked about an objective so widely scaled";
  return null;
}

function isWithinReach(values: readonly number[] | Float64Array): boolean {
  const scale = scaleOf(values);
  for (const value of values) {
    const size = Math.abs(value) * scale;
    if (size !== 0 && (size < LEAST_COEFFICIENT || size > MOST_COEFFICIENT)) return false;
  }
  return true;
}
