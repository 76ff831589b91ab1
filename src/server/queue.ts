import { Stopped } from "./work/stopped.js";
import type { TaskThread } from "./work/task-thread.js";
import type { PlanTasks } from "./work/tasks.js";

export interface QueueOptions {
  readonly thread: TaskThread<PlanTasks>;
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

interface Entry {
  readonly begin: () => void;
  readonly end: (reason: Stopped) => void;
  lookedAt: number;
}

interface Wanted<News> {
  /** Is told how far the work has come. */
  readonly tell?: (news: News) => void;
  /** Where nobody need look it is done in any case. */
  readonly isWatched?: boolean;
}

const STOPPED = "it was stopped";
const UNWATCHED = "it was stopped, as nobody waited for it";
const CLOSED = "the server was closed";

/**
 * Has one piece of work done at a time, in the order asked, while somebody waits for it. It is done in a thread of its
 * own, so whoever else is served meanwhile does not wait.
 */
export class Queue {
  readonly #options: QueueOptions;
  /** The first is being done, the others wait. */
  readonly #entries: Entry[] = [];
  readonly #watch: NodeJS.Timeout;
  #isClosed = false;

  constructor(options: QueueOptions) {
    this.#options = options;
    this.#watch = setInterval(() => this.#stopUnwatched(), options.patienceMs / 5).unref();
  }

  /** Takes a piece of work, or returns null when too many wait. */
  add<Kind extends keyof PlanTasks>(
    kind: Kind,
    asked: PlanTasks[Kind]["asked"],
    { tell = () => undefined, isWatched = true }: Wanted<PlanTasks[Kind]["news"]> = {},
  ): Place<PlanTasks[Kind]["answer"]> | null {
    if (this.#isClosed || this.#entries.length > this.#options.mostWaiting) return null;
    let begin = (): void => undefined;
    let end = (_: Stopped): void => undefined;
    const turn = new Promise<void>((resolve, reject) => {
      begin = resolve;
      end = reject;
    });
    const done = turn.then(() => this.#options.thread.run(kind, asked, tell));
    const entry: Entry = { begin, end, lookedAt: isWatched ? performance.now() : Number.POSITIVE_INFINITY };
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

  /** Stops all work and ends the thread. */
  async close(): Promise<void> {
    this.#isClosed = true;
    clearInterval(this.#watch);
    for (const entry of this.#entries.slice(1).reverse()) this.#stop(entry, CLOSED);
    this.#entries.length = 0;
    await this.#options.thread.stop(new Stopped(CLOSED));
  }

  /** What is being done is ended with its thread. */
  #stop(entry: Entry, why: string): void {
    if (!this.#entries.includes(entry)) return;
    const reason = new Stopped(why);
    if (this.#entries[0] === entry) void this.#options.thread.stop(reason);
    else entry.end(reason);
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
