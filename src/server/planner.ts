import type { Engines } from "../allocation/index.js";
import { isProved } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Planned, type PlanOptions, planScenario } from "../planning/index.js";

/** How far a plan has come: what the engine holds, and how good any plan could still be. */
export type PlanProgress = Parameters<NonNullable<PlanOptions["onProgress"]>>[0];

export type Job =
  | { readonly kind: "waiting"; readonly ahead: number }
  | { readonly kind: "planning"; readonly progress: PlanProgress | null; readonly allowed: number }
  | Finished;

export type Finished =
  | { readonly kind: "planned"; readonly planned: Planned }
  | { readonly kind: "broken"; readonly reason: string };

export interface Request {
  /** What the plan is held under; equal keys are equal scenarios. */
  readonly key: string;
  readonly scenario: Scenario;
  readonly seconds: number;
}

export interface PlannerOptions {
  readonly engines: Engines;
  /** Most plans waiting while another is made; one more is turned away. */
  readonly mostWaiting: number;
  /** Most finished plans held; the oldest goes first. */
  readonly mostHeld: number;
}

interface Pending {
  readonly allowed: number;
  progress: PlanProgress | null;
  finished: Promise<Finished>;
}

/**
 * Makes one plan at a time, in the order asked, and holds what it made. The engines work in threads of their
 * own, so whoever else is served meanwhile does not wait.
 */
export class Planner {
  readonly #options: PlannerOptions;
  /** The first is being made, the others wait. */
  readonly #pending = new Map<string, Pending>();
  readonly #held = new Map<string, Finished>();
  #last: Promise<unknown> = Promise.resolve();
  #working = 0;

  constructor(options: PlannerOptions) {
    this.#options = options;
  }

  /** How the plan under this key stands; null where none was asked for. */
  job(key: string): Job | null {
    const pending = this.#pending.get(key);
    if (pending === undefined) return this.#held.get(key) ?? null;
    const ahead = [...this.#pending.keys()].indexOf(key);
    if (ahead > 0) return { kind: "waiting", ahead };
    return { kind: "planning", progress: pending.progress, allowed: pending.allowed };
  }

  /**
   * Takes a request, or returns null when too many wait. What is waiting, being made or proved already is not
   * made again. The promise never rejects.
   */
  plan(request: Request): Promise<Finished> | null {
    const { key, seconds } = request;
    const pending = this.#pending.get(key);
    if (pending !== undefined) return pending.finished;
    const held = this.#held.get(key);
    if (held?.kind === "planned" && isProved(held.planned.plan)) return Promise.resolve(held);
    if (this.#pending.size > this.#options.mostWaiting) return null;
    const finished = this.#last.then(() => this.#make(request));
    this.#pending.set(key, { allowed: seconds, progress: null, finished });
    this.#last = finished;
    return finished;
  }

  /** Has other work done with the engines when its turn comes, between plans; null when too many wait. */
  work<T>(task: (engines: Engines) => Promise<T>): Promise<T> | null {
    if (this.#pending.size + this.#working > this.#options.mostWaiting) return null;
    this.#working++;
    const done = this.#last
      .then(() => task(this.#options.engines))
      .finally(() => {
        this.#working--;
      });
    this.#last = done.catch(() => undefined);
    return done;
  }

  async #make({ key, scenario, seconds }: Request): Promise<Finished> {
    const finished = await this.#attempt(scenario, seconds, (progress) => {
      const pending = this.#pending.get(key);
      if (pending !== undefined) pending.progress = progress;
    });
    this.#pending.delete(key);
    this.#held.delete(key);
    this.#held.set(key, finished);
    for (const oldest of this.#held.keys()) {
      if (this.#held.size <= this.#options.mostHeld) break;
      this.#held.delete(oldest);
    }
    return finished;
  }

  async #attempt(
    scenario: Scenario,
    seconds: number,
    onProgress: (progress: PlanProgress) => void,
  ): Promise<Finished> {
    try {
      const { engines } = this.#options;
      const planned = await planScenario(scenario, { seconds, engines, onProgress, risk: {} });
      return { kind: "planned", planned };
    } catch (error) {
      return { kind: "broken", reason: error instanceof Error ? error.message : String(error) };
    }
  }
}
