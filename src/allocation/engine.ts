import type { Model, Objective } from "./model.js";
import type { EngineName, Outcome } from "./outcome.js";

/** A solver behind one door. It works in a thread of its own, which is ended at the deadline. */
export interface Engine {
  readonly name: EngineName;
  solve(question: Question, limits: SolveLimits): Promise<Outcome>;
  /** Ends the thread. Idempotent. */
  close(): Promise<void>;
}

export interface Question {
  readonly model: Model;
  readonly objective: Objective;
}

export interface SolveLimits {
  /** Wall-clock seconds from the call, after which an answer is wanted. */
  readonly seconds: number;
  /** The same while no point is known, where that is longer. The thread is ended when both are over. */
  readonly secondsToFirst?: number;
  /** Relative gap at which the answer is called optimal. */
  readonly gap: number;
  /** A point to start from, for engines that can; one that breaks a row is mended or left aside. */
  readonly start?: readonly number[];
  readonly onProgress?: (progress: Progress) => void;
}

export interface Progress {
  readonly best: number | null;
  readonly bound: number | null;
  readonly seconds: number;
}
