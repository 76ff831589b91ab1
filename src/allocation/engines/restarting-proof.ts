import { isBetter, relativeGap } from "../engine.js";
import { IncumbentChannel } from "./incumbent.js";
import type { Ask, Proposal, Verdict } from "./threads.js";

/** How often the other threads are listened to. */
const MS_BETWEEN_LOOKS = 20;
/** Another thread's point is worth a new start, which loses what HiGHS has learnt, when it closes so much of the gap. */
const WORTH_A_START = 0.9;
/** Later than this part of the time a new start would not come to much. */
const LATEST_START = 0.4;

/**
 * A proof beside other threads that search. HiGHS takes no point while it runs (the package's callback leaves it
 * behind): so the proof ends as soon as another thread's point meets the bound, and starts again, once, from one so
 * much better that little is left to prove.
 */
export class RestartingProof {
  readonly #incumbents: IncumbentChannel;
  readonly #ask: Ask;
  readonly #began = Date.now();
  #looked = 0;
  #own: number | null = null;
  #bound: number | null = null;
  #start: Proposal | null = null;
  #ending: "proved" | "start again" | null = null;

  constructor(channel: string, ask: Ask) {
    this.#incumbents = new IncumbentChannel(channel, ask.matrix.most);
    this.#ask = ask;
  }

  tell(proposal: Proposal): void {
    this.#own = proposal.objective;
    this.#incumbents.tell(proposal);
  }

  /** Whether HiGHS should stop: another thread's point is proved best, or much better than its own. */
  wantsAnEnd(bound: number | null): boolean {
    if (Date.now() - this.#looked < MS_BETWEEN_LOOKS) return false;
    this.#looked = Date.now();
    if (bound !== null) this.bestBound(bound);
    const given = this.#incumbents.best();
    if (given === null || !isBetter(given.objective, this.#own, this.#ask.matrix.most)) return false;
    if (this.#bound !== null && relativeGap(given.objective, this.#bound) <= this.#ask.gap) {
      this.#ending = "proved";
    } else if (this.#start === null && this.#isInTime() && this.#isMuchBetter(given.objective)) {
      this.#start = given;
      this.#ending = "start again";
    }
    return this.#ending !== null;
  }

  /** Whether it was stopped to start again; it will not be a second time. */
  startsAgain(): boolean {
    const again = this.#ending === "start again";
    if (again) this.#ending = null;
    return again;
  }

  start(): Float64Array | null {
    return this.#start?.point ?? null;
  }

  /** Another thread's point where it was stopped because that is proved. */
  proved(): Verdict | null {
    const given = this.#incumbents.best();
    if (this.#ending !== "proved" || given === null || this.#bound === null) return null;
    return { kind: "solved", ...given, bound: this.#bound, stoppedBy: null };
  }

  /** The best of this bound and those before it, as a new start begins from nothing. */
  bestBound(bound: number): number {
    if (isBetter(bound, this.#bound, !this.#ask.matrix.most)) this.#bound = bound;
    return this.#bound ?? bound;
  }

  close(): void {
    this.#incumbents.close();
  }

  #isInTime(): boolean {
    return Date.now() - this.#began < LATEST_START * (this.#ask.until - this.#began);
  }

  #isMuchBetter(objective: number): boolean {
    if (this.#own === null || this.#bound === null) return false;
    return Math.abs(objective - this.#own) >= WORTH_A_START * Math.abs(this.#own - this.#bound);
  }
}
