import type { Engines } from "../allocation/index.js";
import { Stopped, stoppable } from "./stoppable.js";

export interface QueueOptions {
  /** Makes engines: at first, and anew after the ones before were ended with what they worked at. */
  readonly engines: () => Engines;
  /** Most pieces of work waiting while another is done; one more is turned away. */
  readonly mostWaiting: number;
  /** Work that nobody has looked at for so long is stopped. */
  readonly patienceMs: number;
}

/** A place in the queue. */
export interface Place<T> {
  /** Settles with the work; rejects with `Stopped` where it was ended before. */
  readonly done: Promise<T>;
  /** How many come before it; none once it is worked at. */
  ahead(): number;
  /** Says that somebody is looking, and waits. */
  look(): void;
  /** Leaves the queue, or ends the work. */
  stop(): void;
}

/** What is said to somebody whose turn has not come. */
export function placeText(ahead: number): string {
  return ahead === 1 ? "1 plan is made first." : `${ahead} plans are made first.`;
}

type Task<T> = (engines: Engines) => Promise<T>;

interface Entry {
  readonly begin: () => void;
  readonly over: AbortController;
  lookedAt: number;
}

export const STOPPED = "it was stopped";
export const UNWATCHED = "it was stopped, as nobody waited for it";
const CLOSED = "the server was closed";

/**
 * Does one piece of work with the engines at a time, in the order asked, while somebody waits for it. The engines work
 * in threads of their own, so whoever else is served meanwhile does not wait; ended work leaves them to the next.
 */
export class Queue {
  readonly #options: QueueOptions;
  /** The first is being done, the others wait. */
  readonly #entries: Entry[] = [];
  readonly #watch: NodeJS.Timeout;
  #engines: Engines | null = null;

  constructor(options: QueueOptions) {
    this.#options = options;
    this.#watch = setInterval(() => this.#stopUnwatched(), options.patienceMs / 5).unref();
  }

  /** Takes a piece of work, or returns null when too many wait. Where nobody need look it is done in any case. */
  add<T>(task: Task<T>, { isWatched = true }: { readonly isWatched?: boolean } = {}): Place<T> | null {
    if (this.#entries.length > this.#options.mostWaiting) return null;
    const over = new AbortController();
    let begin = (): void => undefined;
    const turn = new Promise<void>((resolve) => {
      begin = resolve;
    });
    const stopped = new Promise<never>((_, reject) => {
      over.signal.addEventListener("abort", () => reject(over.signal.reason));
    });
    const work = turn.then(() => task(stoppable(this.#enginesNow(), over.signal)));
    const done = Promise.race([work, stopped]);
    const entry: Entry = {
      begin,
      over,
      lookedAt: isWatched ? performance.now() : Number.POSITIVE_INFINITY,
    };
    const leave = () => this.#leave(entry);
    done.then(leave, leave);
    this.#entries.push(entry);
    if (this.#entries.length === 1) begin();
    return {
      done,
      ahead: () => Math.max(0, this.#entries.indexOf(entry)),
      look: () => {
        entry.lookedAt = Math.max(entry.lookedAt, performance.now());
      },
      stop: () => this.#stop(entry, STOPPED),
    };
  }

  /** Stops all work and ends the engines. */
  async close(): Promise<void> {
    clearInterval(this.#watch);
    for (const entry of [...this.#entries].reverse()) this.#stop(entry, CLOSED);
    await this.#engines?.close();
  }

  #enginesNow(): Engines {
    this.#engines ??= this.#options.engines();
    return this.#engines;
  }

  /** What is being done is ended with the engines that do it. */
  #stop(entry: Entry, why: string): void {
    if (!this.#entries.includes(entry)) return;
    const isWorked = this.#entries[0] === entry;
    entry.over.abort(new Stopped(why));
    if (isWorked) {
      void this.#engines?.close();
      this.#engines = null;
    }
    this.#leave(entry);
  }

  /** Takes it out, and lets the next begin where it was being done. */
  #leave(entry: Entry): void {
    const index = this.#entries.indexOf(entry);
    if (index < 0) return;
    this.#entries.splice(index, 1);
    if (index === 0) this.#entries[0]?.begin();
  }

  #stopUnwatched(): void {
    const now = performance.now();
    const left = this.#entries.filter(({ lookedAt }) => now - lookedAt > this.#options.patienceMs);
    // From the last on, so that none is begun only to be ended.
    for (const entry of left.reverse()) this.#stop(entry, UNWATCHED);
  }
}
