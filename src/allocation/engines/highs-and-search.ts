import { randomUUID } from "node:crypto";
import { setTimeout as after } from "node:timers/promises";
import { certify } from "../certify.js";
import type { Engine, Question, SolveLimits } from "../engine.js";
import { type Outcome, relativeGap } from "../outcome.js";
import { wholesToSearch } from "../search/index.js";
import { type Highs, refusalOf } from "./highs.js";
import { faultOf, toMatrix } from "./matrix.js";
import { isBetter, Partners } from "./partners.js";
import type { SearchAsk, SearchRole } from "./protocol.js";
import { Standing } from "./standing.js";
import { type Ending, LONGEST_TIMER_MS, Threads, threadFile } from "./thread.js";
import { deadlineOf } from "./threaded.js";

/** So long at most the proof waits for a first point, which comes sooner where the search need not share the machine. */
const HEAD_START = { seconds: 1, share: 0.1 };
/**
 * From so many whole numbers on no proof of a plan ends in the time there is, and its bound hardly rises after the
 * first seconds: where there is time for it, a second search goes before the proof. `ended` is its share of the time.
 */
const SECOND = { leastWhole: 300, leastSeconds: 6, ended: 0.85 };
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
    // The search asks HiGHS too, and believes its bounds.
    const fault = faultOf(question) ?? refusalOf(toMatrix(question));
    if (fault !== null) return this.#failed(fault, standing.seconds);
    const channel = randomUUID();
    const work: Work = {
      question,
      limits,
      standing,
      channel,
      partners: new Partners(channel, standing.most),
    };
    const over = new AbortController();
    const searching = this.#search("first", work, over.signal);
    const begun = Promise.race([standing.first, standing.pointless, searching]);
    if (isWorthTwo(question, limits)) await this.#searchBeside(begun, work);
    else {
      this.#highs.warm();
      const headStart = Math.min(HEAD_START.seconds, HEAD_START.share * limits.seconds);
      await Promise.race([begun, secondsTo(headStart)]);
    }
    const left = limits.seconds - standing.seconds;
    const proved = await this.#prove(work, left);
    if (proved.kind !== "feasible" && proved.kind !== "failed") over.abort();
    await searching;
    work.partners.close();
    return { ...this.#together(proved, work, left), seconds: standing.seconds };
  }

  close(): Promise<void> {
    return this.#threads.close();
  }

  #search(
    role: SearchRole,
    { question, limits, standing, channel }: Work,
    over: AbortSignal,
  ): Promise<Ending> {
    const { secondsToFirst = limits.seconds } = limits;
    const until = Date.now() + Math.max(limits.seconds, secondsToFirst) * 1000;
    const enough = Date.now() + limits.seconds * 1000;
    const start = limits.start === undefined ? null : Float64Array.from(limits.start);
    const ask = { question, until, enough, start, role, channel };
    return this.#threads.ask(ask, (news) => standing.hearSearch(news), over);
  }

  /** A second search, from the first one's dive to its share of the time; it ends at once where that came to no point. */
  async #searchBeside(begun: Promise<unknown>, work: Work): Promise<void> {
    const { standing, limits, partners } = work;
    const over = new AbortController();
    const second = this.#search("second", work, over.signal);
    const ended = secondsTo(SECOND.ended * limits.seconds);
    await Promise.race([begun, ended]);
    this.#highs.warm();
    if (standing.found !== null) {
      // Its thread may not have been on the channel yet.
      partners.tell(standing.found);
      await Promise.race([second, standing.met, ended]);
    }
    over.abort();
    await second;
  }

  #prove({ question, limits, standing, channel, partners }: Work, seconds: number): Promise<Outcome> {
    const start = standing.found;
    let isHeard = false;
    return this.#highs.solveBeside(channel, question, {
      ...limits,
      ...(start !== null && { start: [...start.point] }),
      seconds,
      onProgress: (progress) => {
        standing.hearProof(progress);
        // What was told before its thread was on the channel has not reached it.
        if (!isHeard && standing.found !== null && standing.found !== start) partners.tell(standing.found);
        isHeard = true;
      },
    });
  }

  #failed(reason: string, seconds: number): Outcome {
    return { kind: "failed", engine: this.name, seconds, reason };
  }

  /** The better of the two points, with the best bound that was proved. */
  #together(proved: Outcome, { question, limits, standing }: Work, seconds: number): Outcome {
    const engine = this.name;
    const { found, most } = standing;
    if (proved.kind === "unbounded") return { ...proved, engine };
    if (proved.kind === "infeasible") {
      const reason = "HiGHS says infeasible, but a point was found that keeps to every row";
      return found === null ? { ...proved, engine } : this.#failed(reason, proved.seconds);
    }
    const own = "point" in proved && (found === null || stands(question, proved)) ? proved : null;
    const isFound = found !== null && isBetter(found.objective, own?.objective ?? null, most);
    const best = isFound ? { point: [...found.point], objective: found.objective } : own;
    if (best === null) return { ...proved, engine };
    const { point, objective } = best;
    const isFurther = "bound" in proved && isBetter(proved.bound, standing.bound, !most);
    const bound = isFurther ? proved.bound : standing.bound;
    const gap = relativeGap(objective, bound);
    const isProved = gap <= limits.gap;
    const said = whyItStopped(proved);
    const stoppedBy = said === deadlineOf(seconds) ? deadlineOf(limits.seconds) : said;
    return {
      kind: isProved ? "optimal" : "feasible",
      engine,
      point,
      objective,
      bound,
      gap,
      seconds: proved.seconds,
      stoppedBy: isProved ? null : (stoppedBy ?? "rounding to whole numbers"),
    };
  }
}

interface Work {
  readonly question: Question;
  readonly limits: SolveLimits;
  readonly standing: Standing;
  readonly channel: string;
  readonly partners: Partners;
}

/** A question with a start is one more about a plan there is, and asks for a proof before a better point. */
function isWorthTwo({ model }: Question, { start, seconds }: SolveLimits): boolean {
  return start === undefined && seconds >= SECOND.leastSeconds && wholesToSearch(model) >= SECOND.leastWhole;
}

function secondsTo(seconds: number): Promise<void> {
  return after(Math.min(1000 * seconds, LONGEST_TIMER_MS), undefined, { ref: false });
}

function stands(
  { model, objective }: Question,
  solved: { point: readonly number[]; objective: number },
): boolean {
  return certify(model, objective, solved.point, solved.objective).certified;
}

function whyItStopped(outcome: Outcome): string | null {
  if (outcome.kind === "failed") return outcome.reason.replace(WITHOUT_POINT, "");
  return "stoppedBy" in outcome ? outcome.stoppedBy : null;
}
