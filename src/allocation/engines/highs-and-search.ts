import { randomUUID } from "node:crypto";
import { certify } from "../certify.js";
import {
  type Engine,
  isBetter,
  type Outcome,
  type Question,
  ROUNDING,
  relativeGap,
  type SolveLimits,
  type Stop,
} from "../engine.js";
import { faultOf, toMatrix } from "../matrix.js";
import { valueAt } from "../model.js";
import { Incumbent, IncumbentChannel } from "./incumbent.js";
import { type Highs, refusalOf } from "./threaded.js";
import { type Ending, type NewsOnTheWay, type SearchAsk, Threads, threadFile } from "./threads.js";

/** So long at most the proof waits for a first point, which comes sooner where the search need not share the machine. */
const HEAD_START = { seconds: 1, share: 0.1 };

/**
 * For plans that no solver finishes: HiGHS proves the bound in one thread, and in another a dive and a search of
 * large neighbourhoods look for better points, each taking the other's best.
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

  async solve(question: Question, limits: SolveLimits): Promise<Outcome> {
    const incumbent = new Incumbent(question, limits);
    // The search asks HiGHS too, and believes its bounds.
    const fault = faultOf(question) ?? refusalOf(toMatrix(question));
    if (fault !== null) return this.#failed(fault, incumbent.seconds);
    if (limits.start !== undefined) incumbent.hearSearch(startOf(question, limits.start));
    const channel = randomUUID();
    const incumbents = new IncumbentChannel(channel, incumbent.most);
    try {
      return await this.#solve({ question, limits, incumbent, channel, incumbents });
    } finally {
      incumbents.close();
    }
  }

  /** Starts the thread of the search ahead of the first question. */
  warm(): void {
    this.#threads.warm();
  }

  close(): Promise<void> {
    return this.#threads.close();
  }

  async #solve(work: Work): Promise<Outcome> {
    const { question, limits, incumbent } = work;
    const over = new AbortController();
    const searching = this.#search(work, over.signal);
    this.#highs.warm();
    const headStart = Math.min(HEAD_START.seconds, HEAD_START.share * limits.seconds);
    await Promise.race([incumbent.first, incumbent.pointless, searching, incumbent.secondsTo(headStart)]);
    // Where a dive came to nothing, only the proof may find a point, and has as long as that may take.
    const { secondsToFirst = limits.seconds } = limits;
    const until = (): number => Math.max(limits.seconds, incumbent.isPointless ? secondsToFirst : 0);
    let proved = await this.#prove(work, until());
    if (proved.kind === "failed" && until() > incumbent.seconds) proved = await this.#prove(work, until());
    const isAnyKnown = incumbent.found !== null || ("point" in proved && stands(question, proved));
    if (isAnswer(proved, work) || incumbent.isPointless) over.abort();
    if (isAnyKnown) await Promise.race([searching, incumbent.secondsTo(limits.seconds)]);
    else await searching;
    over.abort();
    await searching;
    return { ...this.#together(proved, work), seconds: incumbent.seconds };
  }

  #search(work: Work, over: AbortSignal): Promise<Ending> {
    const { question, limits, incumbent, channel } = work;
    const { seconds, secondsToFirst = seconds } = limits;
    const enough = Date.now() + (seconds - incumbent.seconds) * 1000;
    const until = Math.max(enough, Date.now() + (secondsToFirst - incumbent.seconds) * 1000);
    const start = limits.start === undefined ? null : Float64Array.from(limits.start);
    const greet = greeter(work);
    const hear = (news: NewsOnTheWay): void => {
      incumbent.hearSearch(news);
      greet();
    };
    return this.#threads.ask({ question, until, enough, start, channel }, hear, over);
  }

  /** Until the question has had so many seconds. */
  #prove(work: Work, askedSeconds: number): Promise<Outcome> {
    const { question, limits, incumbent, channel } = work;
    const start = incumbent.found;
    const greet = greeter(work);
    const beside = { channel, askedSeconds };
    const seconds = askedSeconds - incumbent.seconds;
    return this.#highs.solveBeside(beside, question, {
      ...limits,
      ...(start !== null && { start: [...start.point] }),
      seconds,
      secondsToFirst: seconds,
      onProgress: (progress) => {
        incumbent.hear(progress);
        greet();
      },
    });
  }

  #failed(reason: string, seconds: number): Outcome {
    return { kind: "failed", engine: this.name, seconds, reason, stoppedBy: null };
  }

  /** The better of the two points, with the best bound that was proved. */
  #together(proved: Outcome, { question, limits, incumbent }: Work): Outcome {
    const engine = this.name;
    const { found, most } = incumbent;
    if (proved.kind === "unbounded") return { ...proved, engine };
    const own = "point" in proved && (found === null || stands(question, proved)) ? proved : null;
    const isFound = found !== null && isBetter(found.objective, own?.objective ?? null, most);
    const best = isFound ? { point: [...found.point], objective: found.objective } : own;
    if (best === null) return { ...proved, engine };
    const { point, objective } = best;
    const isFurther = "bound" in proved && isBetter(proved.bound, incumbent.bound, !most);
    const bound = isFurther ? proved.bound : incumbent.bound;
    const gap = relativeGap(objective, bound);
    const isProved = gap <= limits.gap;
    return {
      kind: isProved ? "optimal" : "feasible",
      engine,
      point,
      objective,
      bound,
      gap,
      seconds: proved.seconds,
      stoppedBy: isProved ? null : (whyItStopped(proved) ?? ROUNDING),
    };
  }
}

interface Work {
  readonly question: Question;
  readonly limits: SolveLimits;
  readonly incumbent: Incumbent;
  readonly channel: string;
  readonly incumbents: IncumbentChannel;
}

/** Tells a thread, once it has said something and so is on the channel, what was told before it was. */
function greeter({ incumbent, incumbents }: Work): () => void {
  let isGreeted = false;
  return () => {
    if (!isGreeted && incumbent.found !== null) incumbents.tell(incumbent.found);
    isGreeted = true;
  };
}

/** Whether nothing that a search finds could make another answer of it. */
function isAnswer(proved: Outcome, { question, incumbent }: Work): boolean {
  if (proved.kind === "optimal") return stands(question, proved);
  return proved.kind === "unbounded" || (proved.kind === "infeasible" && incumbent.found === null);
}

/** As a search would say it, which leaves a start aside that breaks a row. */
function startOf({ objective }: Question, start: readonly number[]): NewsOnTheWay {
  const proposal = { point: Float64Array.from(start), objective: valueAt(objective, start) };
  return { kind: "proposal", id: 0, proposal };
}

function stands(
  { model, objective }: Question,
  solved: { point: readonly number[]; objective: number },
): boolean {
  return certify(model, objective, solved.point, solved.objective).certified;
}

function whyItStopped(outcome: Outcome): Stop | null {
  if (outcome.kind === "failed") return outcome.stoppedBy ?? { code: "solver", words: outcome.reason };
  // A point that stands speaks against a proof that there is none.
  if (outcome.kind === "infeasible")
    return { code: "solver", words: "HiGHS, which finds no plan where there is one" };
  return "stoppedBy" in outcome ? outcome.stoppedBy : null;
}
