import { certify } from "../certify.js";
import type { Progress, Question, SolveLimits } from "../engine.js";
import { relativeGap } from "../outcome.js";
import { isBetter } from "./partners.js";
import type { News, Proposal } from "./protocol.js";

/** What the threads at work on one question have come to together: the best point that stands, and the best bound. */
export class Standing {
  /** Resolved by the first point. */
  readonly first: Promise<void>;
  /** Resolved when the best point is as near to the bound as was asked. */
  readonly met: Promise<void>;
  readonly #question: Question;
  readonly #limits: SolveLimits;
  /** Whether the most of something is sought. */
  readonly most: boolean;
  readonly #began = performance.now();
  #found: Proposal | null = null;
  #best: number | null = null;
  #bound: number | null = null;
  #sayFirst = (): void => {};
  #sayMet = (): void => {};

  constructor(question: Question, limits: SolveLimits) {
    this.#question = question;
    this.#limits = limits;
    this.most = question.objective.sense === "most";
    this.first = new Promise((resolve) => {
      this.#sayFirst = resolve;
    });
    this.met = new Promise((resolve) => {
      this.#sayMet = resolve;
    });
  }

  /** The best point that a search has found; all of them have been certified. */
  get found(): Proposal | null {
    return this.#found;
  }

  /** The best that any point could have, as far as proved; without an end where nothing is. */
  get bound(): number {
    return this.#bound ?? (this.most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY);
  }

  get seconds(): number {
    return (performance.now() - this.#began) / 1000;
  }

  /** What a search says: a point that breaks a row, or is no better, is left aside. */
  hear(news: Exclude<News, { kind: "verdict" }>): void {
    if (news.kind === "progress") {
      this.reach(news);
      return;
    }
    const { point, objective } = news.proposal;
    if (!isBetter(objective, this.#found?.objective ?? null, this.most)) return;
    const { model, objective: aim } = this.#question;
    if (!certify(model, aim, [...point], objective).certified) return;
    this.#found = news.proposal;
    this.reach({ best: objective, bound: null });
    this.#sayFirst();
  }

  /** A best and a bound as they are told, either of which may be behind what is known. */
  reach({ best, bound }: Omit<Progress, "seconds">): void {
    if (best !== null && isBetter(best, this.#best, this.most)) this.#best = best;
    if (bound !== null && isBetter(bound, this.#bound, !this.most)) this.#bound = bound;
    this.#limits.onProgress?.({ best: this.#best, bound: this.#bound, seconds: this.seconds });
    const isMet = this.#found !== null && relativeGap(this.#found.objective, this.bound) <= this.#limits.gap;
    if (isMet) this.#sayMet();
  }
}
