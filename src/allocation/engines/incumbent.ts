import { setTimeout as after } from "node:timers/promises";
import { BroadcastChannel, receiveMessageOnPort } from "node:worker_threads";
import { certify } from "../certify.js";
import { isBetter, type Progress, type Question, type SolveLimits } from "../engine.js";
import { LONGEST_TIMER_MS, type NewsOnTheWay, type Proposal } from "./threads.js";

declare module "node:worker_threads" {
  /** Node takes a channel here, which its types leave out; nothing but proposals is told on ours. */
  function receiveMessageOnPort(channel: BroadcastChannel): { message: Proposal } | undefined;
}

type Judge = (told: Proposal) => Proposal | null;

/**
 * The other threads at work on the same question. Each tells all others its better points; they are read without
 * waiting, so that a thread deep in a solver need not return to hear of them.
 */
export class IncumbentChannel {
  readonly #channel: BroadcastChannel;
  readonly #most: boolean;
  readonly #judge: Judge;
  #best: Proposal | null = null;

  /** What is heard is judged first: null is left aside. */
  constructor(channel: string, most: boolean, judge: Judge = (told) => told) {
    this.#judge = judge;
    this.#channel = new BroadcastChannel(channel);
    this.#most = most;
  }

  tell(proposal: Proposal): void {
    this.#channel.postMessage(proposal);
  }

  /** The best point the others have told so far. */
  best(): Proposal | null {
    for (
      let heard = receiveMessageOnPort(this.#channel);
      heard !== undefined;
      heard = receiveMessageOnPort(this.#channel)
    ) {
      const told = heard.message;
      if (isBetter(told.objective, this.#best?.objective ?? null, this.#most))
        this.#best = this.#judge(told) ?? this.#best;
    }
    return this.#best;
  }

  close(): void {
    this.#channel.close();
  }
}

/** What the threads at work on one question have come to together. */
export class Incumbent {
  /** Whether the most of something is sought. */
  readonly most: boolean;
  /** Resolved by the first point of a search. */
  readonly first: Promise<void>;
  /** Resolved when a dive has come to no point. */
  readonly pointless: Promise<void>;
  readonly #question: Question;
  readonly #limits: SolveLimits;
  readonly #began = performance.now();
  #found: Proposal | null = null;
  #best: number | null = null;
  #bound: number | null = null;
  #isPointless = false;
  #sayFirst = (): void => {};
  #sayPointless = (): void => {};

  constructor(question: Question, limits: SolveLimits) {
    this.#question = question;
    this.#limits = limits;
    this.most = question.objective.sense === "most";
    this.first = new Promise((resolve) => {
      this.#sayFirst = resolve;
    });
    this.pointless = new Promise((resolve) => {
      this.#sayPointless = resolve;
    });
  }

  /** The best point of a search, certified. */
  get found(): Proposal | null {
    return this.#found;
  }

  /** Whether a dive has come to no point, and no search has one. */
  get isPointless(): boolean {
    return this.#isPointless && this.#found === null;
  }

  /** The best that any point could have, as far as proved; without an end where nothing is. */
  get bound(): number {
    return this.#bound ?? (this.most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY);
  }

  get seconds(): number {
    return (performance.now() - this.#began) / 1000;
  }

  /** Resolved when it has so many seconds; the wait keeps no process alive. */
  secondsTo(seconds: number): Promise<void> {
    const left = Math.max(0, 1000 * (seconds - this.seconds));
    return after(Math.min(left, LONGEST_TIMER_MS), undefined, { ref: false });
  }

  /** What a search says: a point that breaks a row, or is no better, is left aside. */
  hearSearch(news: NewsOnTheWay): void {
    if (news.kind === "progress") this.hear(news);
    if (news.kind === "waits") {
      this.#isPointless = true;
      this.#sayPointless();
    }
    if (news.kind !== "proposal") return;
    const { point, objective } = news.proposal;
    if (!isBetter(objective, this.#found?.objective ?? null, this.most)) return;
    const { model, objective: aim } = this.#question;
    if (!certify(model, aim, [...point], objective).certified) return;
    this.#found = news.proposal;
    this.hear({ best: objective, bound: null });
    this.#sayFirst();
  }

  /** A best and a bound, either of which may be behind what is known. */
  hear({ best, bound }: Omit<Progress, "seconds">): void {
    if (best !== null && isBetter(best, this.#best, this.most)) this.#best = best;
    if (bound !== null && isBetter(bound, this.#bound, !this.most)) this.#bound = bound;
    this.#limits.onProgress?.({ best: this.#best, bound: this.#bound, seconds: this.seconds });
  }
}
