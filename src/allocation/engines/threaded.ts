import type { Engine, Progress, Question, SolveLimits } from "../engine.js";
import { faultOf, type Matrix, snapped, toMatrix } from "../matrix.js";
import { type EngineName, type Outcome, relativeGap, type Stop } from "../outcome.js";
import type { Ask, Proposal } from "./protocol.js";
import { type Ending, Threads } from "./thread.js";

/** Why an engine must not be asked this, as a sentence, or null. */
export type Refusal = (matrix: Matrix) => string | null;

/** The channel of the partners, and the seconds that the whole question was asked for, as its deadline is told. */
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

  /** Starts the thread ahead of the first question, which then need not wait for it. */
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
    return this.#outcome(matrix, ending, {
      held,
      bound: progress.bound,
      askedSeconds,
      limits,
      seconds: seconds(),
    });
  }

  close(): Promise<void> {
    return this.#threads.close();
  }

  #outcome(
    matrix: Matrix,
    ending: Ending,
    {
      held,
      bound,
      askedSeconds,
      limits,
      seconds,
    }: {
      held: Proposal | null;
      bound: number | null;
      askedSeconds: number;
      limits: SolveLimits;
      seconds: number;
    },
  ): Outcome {
    if (ending.kind === "verdict") {
      const { verdict } = ending;
      if (verdict.kind === "failed") return this.#failed(verdict.reason, seconds, verdict.stoppedBy);
      if (verdict.kind !== "solved") return { kind: verdict.kind, engine: this.name, seconds };
      return this.#solved(matrix, verdict, { ...verdict, asked: limits.gap, seconds });
    }
    const stoppedBy: Stop =
      ending.kind === "deadline"
        ? { code: "time", words: `the deadline of ${Number(askedSeconds.toFixed(1))} s` }
        : { code: "breakdown", words: `a breakdown: ${ending.reason}` };
    if (held === null) return this.#failed(`${stoppedBy.words}, without any point`, seconds, stoppedBy);
    const open = matrix.most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
    return this.#solved(matrix, held, { bound: bound ?? open, stoppedBy, asked: limits.gap, seconds });
  }

  #solved(
    matrix: Matrix,
    { point, objective }: Proposal,
    {
      bound,
      stoppedBy,
      asked,
      seconds,
    }: { bound: number; stoppedBy: Stop | null; asked: number; seconds: number },
  ): Outcome {
    const gap = relativeGap(objective, bound);
    const proved = stoppedBy === null || gap <= asked;
    return {
      kind: proved ? "optimal" : "feasible",
      engine: this.name,
      point: snapped(point, matrix.whole),
      objective,
      bound,
      gap,
      seconds,
      stoppedBy: proved ? null : stoppedBy,
    };
  }

  #failed(reason: string, seconds: number, stoppedBy: Stop | null = null): Outcome {
    return { kind: "failed", engine: this.name, seconds, reason, stoppedBy };
  }
}
