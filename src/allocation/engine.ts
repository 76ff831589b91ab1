import type { Model, Objective } from "./model.js";

/** A solver behind one door. It works in a thread of its own, which is ended at the deadline. */
export interface Engine {
  readonly name: EngineName;
  solve(question: Question, limits: SolveLimits): Promise<Outcome>;
  /** Starts the thread ahead of the first question, which then need not wait for it. */
  warm?(): void;
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

export type EngineName = "javascript-lp-solver" | "highs" | "highs and search";

/** Why a search ended before its proof. */
export type StopCode = "time" | "breakdown" | "solver" | "size" | "rounding" | "ceilings" | "certainty";

/** The same with words for whoever checks the proof, which for a solver are its own. */
export interface Stop {
  readonly code: StopCode;
  readonly words: string;
}

/** Whole numbers that the engine's proof was not exact about. */
export const ROUNDING: Stop = { code: "rounding", words: "rounding to whole numbers" };

/**
 * What an engine says of one objective. A point is a proposal until `certify` has checked it; `optimal` is
 * said only with a proof to the asked gap, never at a time limit.
 */
export type Outcome =
  | {
      readonly kind: "optimal" | "feasible";
      readonly engine: EngineName;
      readonly point: readonly number[];
      readonly objective: number;
      /** Best value any point could have, as far as proved. */
      readonly bound: number;
      /** See `relativeGap`. */
      readonly gap: number;
      readonly seconds: number;
      /** What ended the search before the proof; null for `optimal`. */
      readonly stoppedBy: Stop | null;
    }
  | {
      readonly kind: "infeasible" | "unbounded";
      readonly engine: EngineName;
      readonly seconds: number;
    }
  | {
      readonly kind: "failed";
      readonly engine: EngineName;
      readonly seconds: number;
      /** What the engine said, or that the deadline passed without any point. */
      readonly reason: string;
      /** What ended it; null where it was not begun, or what it said does not stand. */
      readonly stoppedBy: Stop | null;
    };

export type Solved = Extract<Outcome, { point: readonly number[] }>;

/** Objectives smaller than this (100 g, or a tenth of the currency unit) are judged as if they were this large. */
const SMALLEST_SCALE = 0.1;

export function relativeGap(objective: number, bound: number): number {
  return Math.abs(objective - bound) / Math.max(SMALLEST_SCALE, Math.abs(objective));
}

export function isBetter(objective: number, than: number | null, most: boolean): boolean {
  return than === null || (most ? objective > than : objective < than);
}

export function isSolved(outcome: Outcome): outcome is Solved {
  return outcome.kind === "optimal" || outcome.kind === "feasible";
}
