import { setTimeout as after } from "node:timers/promises";
import { MessageChannel } from "node:worker_threads";
import { certify } from "../certify.js";
import type { Engine, Question, SolveLimits } from "../engine.js";
import { type Outcome, relativeGap } from "../outcome.js";
import type { Highs } from "./highs.js";
import { faultOf } from "./matrix.js";
import { isBetter } from "./partner.js";
import type { Proposal, SearchAsk } from "./protocol.js";
import { Threads, threadFile } from "./thread.js";

const SEED = 1;
const LAST_MOMENT = 0.6;
/** So long at most the proof waits for a first point, which comes sooner where the search need not share the machine. */
const HEAD_START = { seconds: 1, share: 0.1 };
/** Said of HiGHS alone, whose point is not wanted where the search has one. */
const WITHOUT_POINT = /,? without any point$/;

/**
 * For plans that no solver finishes: HiGHS proves the bound in one thread, and in another a dive and a search of
 * large neighbourhoods look for better points. Each takes the other's best.
 */
export class HighsAndSearch implements Engine {
  readonly name = "highs and search";
  readonly #highs: Highs;
  readonly #threads: Threads<SearchAsk>;

  /** The threads of HiGHS belong to the engine given, which is closed apart. */
  constructor(highs: Highs, file = threadFile("search-worker", import.meta.url)) {
    this.#highs = highs;
    this.#threads = new Threads(file);
  }

  warm(): void {
    this.#highs.warm();
    this.#threads.warm();
  }

  async solve(question: Question, limits: SolveLimits): Promise<Outcome> {
    const began = performance.now();
    const seconds = (): number => (performance.now() - began) / 1000;
    const fault = faultOf(question);
    if (fault !== null) return { kind: "failed", engine: this.name, reason: fault, seconds: seconds() };
    const { secondsToFirst = limits.seconds } = limits;
    const most = question.objective.sense === "most";
    const over = new AbortController();
    const { port1, port2 } = new MessageChannel();
    let found: Proposal | null = null;
    let best: number | null = null;
    let bound: number | null = null;
    const report = (objective: number | null): void => {
      if (objective !== null && isBetter(objective, best, most)) best = objective;
      limits.onProgress?.({ best, bound, seconds: seconds() });
    };

    let sayFirst = (): void => {};
    const first = new Promise<void>((resolve) => {
      sayFirst = resolve;
    });
    const searching = this.#threads.ask(
      {
        question,
        until: Date.now() + Math.max(limits.seconds, secondsToFirst) * 1000,
        enough: Date.now() + limits.seconds * 1000,
        start: limits.start === undefined ? null : Float64Array.from(limits.start),
        seed: SEED,
        partner: port2,
      },
      (news) => {
        if (news.kind !== "proposal" || !isBetter(news.proposal.objective, found?.objective ?? null, most))
          return;
        const { point, objective } = news.proposal;
        if (!certify(question.model, question.objective, [...point], objective).certified) return;
        found = news.proposal;
        report(objective);
        sayFirst();
      },
      over.signal,
    );
    this.#highs.warm();
    const headStart = Math.min(HEAD_START.seconds, HEAD_START.share * limits.seconds);
    await Promise.race([first, searching, after(1000 * headStart, null, { ref: false })]);
    const proved = await this.#highs.solveBeside(port1, question, {
      ...startingFrom(found, limits),
      seconds: limits.seconds - seconds(),
      onProgress: (progress) => {
        if (progress.bound !== null) bound = isBetter(progress.bound, bound, !most) ? progress.bound : bound;
        report(progress.best);
      },
    });
    // At its deadline HiGHS keeps a moment back: the search has it still, and its thread stays warm.
    const isUnproved = proved.kind === "feasible" || proved.kind === "failed";
    if (!isUnproved || limits.seconds - seconds() > LAST_MOMENT) over.abort();
    await searching;
    const open = most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
    return {
      ...this.#together(proved, found, { bound: bound ?? open, gap: limits.gap, most }),
      seconds: seconds(),
    };
  }

  close(): Promise<void> {
    return this.#threads.close();
  }

  /** The better of the two points, with the bound that was proved. */
  #together(
    proved: Outcome,
    found: Proposal | null,
    { bound: heard, gap: asked, most }: { bound: number; gap: number; most: boolean },
  ): Outcome {
    const engine = this.name;
    if (found === null || proved.kind === "optimal") return { ...proved, engine };
    if (proved.kind === "unbounded") return { ...proved, engine };
    if (proved.kind === "infeasible") {
      const reason = "HiGHS says infeasible, but a point was found that keeps to every row";
      return { kind: "failed", engine, seconds: proved.seconds, reason };
    }
    if (proved.kind === "feasible" && !isBetter(found.objective, proved.objective, most))
      return { ...proved, engine };
    const bound = proved.kind === "feasible" && isBetter(proved.bound, heard, !most) ? proved.bound : heard;
    const stoppedBy = "stoppedBy" in proved ? proved.stoppedBy : whyItStopped(proved);
    const gap = relativeGap(found.objective, bound);
    const isProved = gap <= asked;
    return {
      kind: isProved ? "optimal" : "feasible",
      engine,
      point: [...found.point],
      objective: found.objective,
      bound,
      gap,
      seconds: proved.seconds,
      stoppedBy: isProved ? null : stoppedBy,
    };
  }
}

function startingFrom(found: Proposal | null, limits: SolveLimits): SolveLimits {
  return found === null ? limits : { ...limits, start: [...found.point] };
}

function whyItStopped(outcome: Outcome): string | null {
  return outcome.kind === "failed" ? outcome.reason.replace(WITHOUT_POINT, "") : null;
}
