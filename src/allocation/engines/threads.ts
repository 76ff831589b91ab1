import { Worker } from "node:worker_threads";
import type { Question, Stop } from "../engine.js";
import type { Matrix } from "../matrix.js";

/** What every thread is asked. */
interface Asked {
  readonly id: number;
  /** The moment, in milliseconds since 1970, at which an answer comes too late, and the one from which any point will do. */
  readonly until: number;
  readonly enough: number;
  readonly start: Float64Array | null;
}

/** What the thread of an engine is asked. */
export interface Ask extends Asked {
  readonly matrix: Matrix;
  readonly gap: number;
  /** Name of the channel on which threads at one question tell one another of better points. */
  readonly channel: string | null;
}

/** What a thread that searches is asked: the question with its tags. */
export interface SearchAsk extends Asked {
  readonly question: Question;
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
export function lateVerdict({ id, until }: Asked): News | null {
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
  /** A search whose dive has come to no point waits for one of another thread. */
  | { readonly kind: "waits"; readonly id: number };

export type Ending =
  | { readonly kind: "verdict"; readonly verdict: Verdict }
  | { readonly kind: "deadline" }
  | { readonly kind: "broken"; readonly reason: string };

const CLOSED: Ending = { kind: "broken", reason: "it was closed" };

type Listener = (news: NewsOnTheWay) => void;

export const LONGEST_TIMER_MS = 2 ** 31 - 1;
/** One that has not loaded by then never will. */
const LONGEST_LOAD_MS = 10_000;
/** Keeps a search tree that grows without end from taking the whole process down with it. */
const HEAP_LIMIT_MB = 1024;

/**
 * The file of a thread beside the module that names it. Node 20 runs no TypeScript, so when the module is
 * run from source, as in tests, the thread loads the built file, which `npm test` makes first.
 */
export function threadFile(name: string, moduleUrl: string): URL {
  const built = moduleUrl.replace("/src/allocation/engines/", "/dist/allocation/engines/");
  return new URL(`./${name}.js`, built);
}

/**
 * Threads that run one file, and say that they are ready when it has loaded. Each question has a thread to itself, ended when it has not answered by its
 * deadline; one that has answered stays warm for the next question and keeps no process alive.
 */
export class Threads<OneAsk extends Asked> {
  readonly #file: URL;
  readonly #busy = new Map<Worker, (ending: Ending) => void>();
  /** When those that are still loading were begun. */
  readonly #loading = new WeakMap<Worker, number>();
  #idle: Worker | null = null;
  #asked = 0;
  #isClosed = false;

  constructor(file: URL) {
    this.#file = file;
  }

  /** Starts a thread ahead of the first question. */
  warm(): void {
    if (!this.#isClosed && this.#idle === null && this.#busy.size === 0) this.#rest(this.#begin());
  }

  /** Ends the thread, too, when `over` says that no answer is wanted any more. */
  ask(question: Omit<OneAsk, "id">, listen: Listener, over?: AbortSignal): Promise<Ending> {
    if (this.#isClosed) return Promise.resolve(CLOSED);
    const thread = this.#idle ?? this.#begin();
    this.#idle = null;
    this.#asked += 1;
    const id = this.#asked;
    return new Promise((resolve) => {
      const left = Math.min(Math.max(0, question.until - Date.now()), LONGEST_TIMER_MS);
      const timer = setTimeout(() => end({ kind: "deadline" }), left);
      const hear = (news: News) => {
        if (news.id !== id) return;
        if (news.kind === "verdict") end({ kind: "verdict", verdict: news.verdict });
        else if (news.kind !== "ready") listen(news);
      };
      const fail = (error: Error) => end({ kind: "broken", reason: error.message });
      const exit = (code: number) => end({ kind: "broken", reason: `its thread ended with code ${code}` });
      const give = () => end({ kind: "broken", reason: "no answer is wanted any more" });
      const end = (ending: Ending) => {
        if (!this.#busy.delete(thread)) return;
        clearTimeout(timer);
        over?.removeEventListener("abort", give);
        thread.off("message", hear).off("error", fail).off("exit", exit);
        // A thread that is still loading at the deadline drops the question, and is there for the next.
        const isAtRest = ending.kind === "verdict" || (ending.kind === "deadline" && this.#isLoading(thread));
        if (isAtRest && this.#idle === null) this.#rest(thread);
        else void thread.terminate();
        if (ending.kind === "deadline") this.warm();
        resolve(ending);
      };
      this.#busy.set(thread, end);
      thread.on("message", hear).on("error", fail).on("exit", exit);
      over?.addEventListener("abort", give);
      thread.ref();
      thread.postMessage({ ...question, id });
    });
  }

  /** Ends every thread; questions still open end as broken, and so do those asked later. */
  async close(): Promise<void> {
    this.#isClosed = true;
    const idle = this.#idle;
    this.#idle = null;
    const busy = [...this.#busy];
    for (const [, end] of busy) end(CLOSED);
    await Promise.all([...busy.map(([thread]) => thread.terminate()), idle?.terminate()]);
  }

  #begin(): Worker {
    const thread = new Worker(this.#file, {
      // The flags of this process are its own affair; some of them stop a thread from starting.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_LIMIT_MB },
    });
    const forget = () => {
      if (this.#idle === thread) this.#idle = null;
    };
    this.#loading.set(thread, Date.now());
    const loaded = () => this.#loading.delete(thread);
    return thread.on("error", forget).on("exit", forget).once("message", loaded);
  }

  #isLoading(thread: Worker): boolean {
    return Date.now() - (this.#loading.get(thread) ?? 0) < LONGEST_LOAD_MS;
  }

  #rest(thread: Worker): void {
    this.#idle = thread;
    thread.unref();
  }
}
