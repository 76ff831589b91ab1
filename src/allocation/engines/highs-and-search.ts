import { randomUUID } from "node:crypto";
import { setTimeout as after } from "node:timers/promises";
import type { Engine, Question, SolveLimits } from "../engine.js";
import { type Outcome, relativeGap } from "../outcome.js";
import { wholesToSearch } from "../search/index.js";
import type { Highs } from "./highs.js";
import { faultOf } from "./matrix.js";
import { isBetter } from "./partners.js";
import type { Proposal, SearchAsk, SearchRole } from "./protocol.js";
import { Standing } from "./standing.js";
import { type Ending, Threads, threadFile } from "./thread.js";

const LAST_MOMENT = 0.6;
/** So long at most the proof waits for a first point, which comes sooner where the search need not share the machine. */
const HEAD_START = { seconds: 1, share: 0.1 };
/**
 * From so many whole numbers on no proof ends in the time there is, and its bound hardly rises after the first
 * seconds: most of its time goes to a second search.
 */
const LEAST_WHOLE_FOR_TWO = 300;
/** Of the time: when at the latest the second search must have a point to go on from, and when it makes way. */
const SECOND = { begun: 0.4, ended: 0.8 };
/** Said of HiGHS alone, whose point is not wanted where the search has one. */
const WITHOUT_POINT = /,? without any point$/;

/**
 * For plans that no solver finishes: HiGHS proves the bound in one thread, and in another a dive and a search of
 * large neighbourhoods look for better points; where the plan is very large, a second search goes before the proof.
 * Each takes the others' best.
 */
export class HighsAndSearch implements Engine {
  readonly name = "highs and search";
  readonly #highs: Highs;
  readonly #threads: Threads<SearchAsk>;
  #isClosed = false;

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
    const standing = new Standing(question, limits);
    const fault = faultOf(question);
    if (fault !== null) return this.#failed(fault, standing.seconds);
    const channel = randomUUID();
    const { secondsToFirst = limits.seconds } = limits;
    const search = (role: SearchRole, over: AbortController): Promise<Ending> => {
      const until = Date.now() + Math.max(limits.seconds, secondsToFirst) * 1000;
      const enough = Date.now() + limits.seconds * 1000;
      const start = limits.start === undefined ? null : Float64Array.from(limits.start);
      const ask = { question, until, enough, start, role, channel };
      return this.#threads.ask(ask, (news) => standing.hear(news), over.signal);
    };
    const over = new AbortController();
    const searching = search("first", over);
    const reach = (share: number, seconds = Number.POSITIVE_INFINITY): Promise<unknown> => {
      const left = Math.min(seconds, share * limits.seconds) - standing.seconds;
      return Promise.race([searching, standing.met, after(1000 * Math.max(0, left), null, { ref: false })]);
    };
    if (wholesToSearch(question.model) < LEAST_WHOLE_FOR_TWO) {
      this.#highs.warm();
      await Promise.race([standing.first, reach(HEAD_START.share, HEAD_START.seconds)]);
    } else {
      const aside = new AbortController();
      const second = search("second", aside);
      await Promise.race([standing.first, reach(SECOND.begun)]);
      if (standing.found !== null) await reach(SECOND.ended);
      aside.abort();
      await second;
    }
    const proved = this.#isClosed
      ? this.#failed("a breakdown: it was closed, without any point", standing.seconds)
      : await this.#highs.solveBeside(channel, question, {
          ...startingFrom(standing.found, limits),
          seconds: limits.seconds - standing.seconds,
          onProgress: (progress) => standing.reach(progress),
        });
    // At its deadline HiGHS keeps a moment back: the search has it still, and its thread stays warm.
    const isUnproved = proved.kind === "feasible" || proved.kind === "failed";
    if (!isUnproved || limits.seconds - standing.seconds > LAST_MOMENT) over.abort();
    await searching;
    return { ...this.#together(proved, standing, limits.gap), seconds: standing.seconds };
  }

  close(): Promise<void> {
    this.#isClosed = true;
    return this.#threads.close();
  }

  #failed(reason: string, seconds: number): Outcome {
    return { kind: "failed", engine: this.name, seconds, reason };
  }

  /** The better of the two points, with the best bound that was proved. */
  #together(proved: Outcome, { found, bound: heard, most }: Standing, asked: number): Outcome {
    const engine = this.name;
    if (proved.kind === "optimal" || proved.kind === "unbounded") return { ...proved, engine };
    if (proved.kind === "infeasible") {
      const reason = "HiGHS says infeasible, but a point was found that keeps to every row";
      return found === null ? { ...proved, engine } : this.#failed(reason, proved.seconds);
    }
    const own = proved.kind === "feasible" ? proved : null;
    const isFound = found !== null && isBetter(found.objective, own?.objective ?? null, most);
    const best = isFound ? { point: [...found.point], objective: found.objective } : own;
    if (best === null) return { ...proved, engine };
    const { point, objective } = best;
    const bound = own !== null && isBetter(own.bound, heard, !most) ? own.bound : heard;
    const gap = relativeGap(objective, bound);
    const isProved = gap <= asked;
    return {
      kind: isProved ? "optimal" : "feasible",
      engine,
      point,
      objective,
      bound,
      gap,
      seconds: proved.seconds,
      stoppedBy: isProved ? null : whyItStopped(proved),
    };
  }
}

function startingFrom(found: Proposal | null, limits: SolveLimits): SolveLimits {
  return found === null ? limits : { ...limits, start: [...found.point] };
}

function whyItStopped(outcome: Outcome): string | null {
  if (outcome.kind === "failed") return outcome.reason.replace(WITHOUT_POINT, "");
  return "stoppedBy" in outcome ? outcome.stoppedBy : null;
}
