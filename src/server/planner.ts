import { reasonOf } from "../reading/index.js";
import type { Place, Queue } from "./queue.js";
import type { ScenarioTexts } from "./scenario-texts.js";
import type { MadePlan, PlanProgress } from "./work/plan.js";
import { Stopped } from "./work/stopped.js";

export type Job =
  | { readonly kind: "waiting"; readonly ahead: number }
  | { readonly kind: "planning"; readonly progress: PlanProgress | null; readonly allowed: number }
  | Finished;

export type Finished =
  | { readonly kind: "planned"; readonly planned: MadePlan }
  | { readonly kind: "broken"; readonly reason: string };

export interface Request {
  /** Read without a problem. */
  readonly file: ScenarioTexts;
  readonly seconds: number;
  /** Made to its end though nobody looks at how it stands. */
  readonly isWatched?: boolean;
}

interface Pending {
  /** Of its file. */
  readonly name: string;
  readonly allowed: number;
  readonly place: Place<MadePlan>;
  readonly finished: Promise<Finished>;
  progress: PlanProgress | null;
}

/** Has plans made in their turn, and holds what was made under the hash of its file. */
export class Planner {
  readonly #queue: Queue;
  /** Most finished plans held; the oldest goes first. */
  readonly #mostHeld: number;
  readonly #pending = new Map<string, Pending>();
  readonly #held = new Map<string, Finished>();

  constructor(queue: Queue, mostHeld: number) {
    this.#queue = queue;
    this.#mostHeld = mostHeld;
  }

  /** How the plan under this key stands; null where none was asked for. */
  job(key: string): Job | null {
    const pending = this.#pending.get(key);
    if (pending === undefined) return this.#held.get(key) ?? null;
    const ahead = pending.place.ahead();
    if (ahead > 0) return { kind: "waiting", ahead };
    return { kind: "planning", progress: pending.progress, allowed: pending.allowed };
  }

  /** The same for somebody who waits for it. */
  watched(key: string): Job | null {
    this.#pending.get(key)?.place.look();
    return this.job(key);
  }

  /** Ends what is planned of the file of this name, also as it was before it changed. What was planned before stays. */
  stop(name: string): void {
    for (const pending of this.#pending.values()) if (pending.name === name) pending.place.stop();
  }

  /**
   * Takes a request, or returns null when too many wait. What is waiting, being made or proved already is not
   * made again. The promise never rejects.
   */
  plan({ file, seconds, isWatched }: Request): Promise<Finished> | null {
    const { hash: key } = file;
    const before = this.#pending.get(key);
    if (before !== undefined) return before.finished;
    const held = this.#held.get(key);
    if (held?.kind === "planned" && held.planned.isProved) return Promise.resolve(held);
    const tell = (progress: PlanProgress) => {
      const pending = this.#pending.get(key);
      if (pending !== undefined) pending.progress = progress;
    };
    const watched = isWatched === undefined ? {} : { isWatched };
    const place = this.#queue.add("plan", { file, seconds }, { tell, ...watched });
    if (place === null) return null;
    const finished = place.done.then(
      (planned): Finished => this.#hold(key, { kind: "planned", planned }),
      (error: unknown): Finished => this.#broken(key, error),
    );
    this.#pending.set(key, { name: file.name, allowed: seconds, place, finished, progress: null });
    return finished;
  }

  #broken(key: string, error: unknown): Finished {
    const held = error instanceof Stopped ? this.#held.get(key) : undefined;
    return this.#hold(key, held ?? { kind: "broken", reason: reasonOf(error) });
  }

  #hold(key: string, finished: Finished): Finished {
    this.#pending.delete(key);
    this.#held.delete(key);
    this.#held.set(key, finished);
    for (const oldest of this.#held.keys()) {
      if (this.#held.size <= this.#mostHeld) break;
      this.#held.delete(oldest);
    }
    return finished;
  }
}
