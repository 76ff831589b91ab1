import type { Question } from "../engine.js";
import type { Matrix } from "../matrix.js";
import type { Stop } from "../outcome.js";

/** What the main thread asks of an engine's thread. */
export interface Ask {
  readonly id: number;
  readonly matrix: Matrix;
  readonly gap: number;
  /** The moment, in milliseconds since 1970, at which an answer comes too late, and the one from which any point will do. */
  readonly until: number;
  readonly enough: number;
  readonly start: Float64Array | null;
  /** Name of the channel on which partners tell one another of better points. */
  readonly channel: string | null;
}

/** What it asks of a thread that searches: the question with its tags. */
export interface SearchAsk {
  readonly id: number;
  readonly question: Question;
  /** The moment at which an answer comes too late, and the one from which any point will do. */
  readonly until: number;
  readonly enough: number;
  readonly start: Float64Array | null;
  readonly channel: string;
}

/** A point as the engine proposes it: nothing about it has been checked. */
export interface Proposal {
  readonly point: Float64Array;
  readonly objective: number;
}

export type Verdict =
  | (Proposal & { readonly kind: "solved"; readonly bound: number; readonly stoppedBy: Stop | null })
  | { readonly kind: "infeasible" | "unbounded" }
  | { readonly kind: "failed"; readonly reason: string; readonly stoppedBy: Stop | null };

/** What an engine's thread says: that it is ready, any amount of news on the way, then one verdict. */
export type News =
  | typeof READY
  | NewsOnTheWay
  | { readonly kind: "verdict"; readonly id: number; readonly verdict: Verdict };

/** Said once, of no question. */
export const READY = { kind: "ready", id: 0 } as const;

/** The verdict of a thread that used up its time, and has told of its points on the way. */
export const TIME_IS_UP: Verdict = {
  kind: "failed",
  reason: "its time is up",
  stoppedBy: { code: "time", words: "its time" },
};

/** What a thread says of a question that came to it too late, as while it was loading. */
export function lateVerdict({ id, until }: { readonly id: number; readonly until: number }): News | null {
  if (Date.now() < until) return null;
  return { kind: "verdict", id, verdict: TIME_IS_UP };
}

export type NewsOnTheWay =
  | { readonly kind: "proposal"; readonly id: number; readonly proposal: Proposal }
  | {
      readonly kind: "progress";
      readonly id: number;
      readonly best: number | null;
      readonly bound: number | null;
    }
  /** A search whose dive has come to no point waits for one of its partners. */
  | { readonly kind: "waits"; readonly id: number };
