import { setTimeout as pause } from "node:timers/promises";
import { Worker } from "node:worker_threads";
import { NotSaved } from "../../records/index.js";
import type { Asked, Said, TaskList } from "./serve-tasks.js";
import { Stopped } from "./stopped.js";

/** So much a task may take of memory in its thread; engines have their own. */
const HEAP_LIMIT_MB = 1024;
/** How long work that was asked may go on when the server is closed: a file is being saved, perhaps. */
const GRACE_MS = 5_000;

export interface ThreadOptions {
  /** The file that the next thread runs. */
  readonly file: () => URL;
  /** What is said where a task takes more memory than there is. */
  readonly outOfMemory: string;
  /** A thread that is silent for longer while something is asked of it is ended; without it, never. */
  readonly limitMs?: number;
}

interface Pending {
  readonly tell: (news: unknown) => void;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (reason: Error) => void;
}

/**
 * A thread that does tasks, so that they keep nobody else waiting. Where it ends, or is stopped, what it was asked is
 * broken off, and the next task has a new one.
 */
export class TaskThread<Tasks extends TaskList> {
  readonly #options: ThreadOptions;
  readonly #pending = new Map<number, Pending>();
  #thread: Worker | null = null;
  #nextId = 0;
  #isClosed = false;
  #timer: NodeJS.Timeout | undefined;

  constructor(options: ThreadOptions) {
    this.#options = options;
  }

  /** Starts it ahead of the first task. */
  warm(): void {
    this.#begun().unref();
  }

  /** Rejects with `NotSaved` where the disk does not allow it, with `Stopped` once it is closed. */
  async run<Kind extends keyof Tasks & string>(
    kind: Kind,
    asked: Tasks[Kind]["asked"],
    tell: (news: Tasks[Kind]["news"]) => void = () => undefined,
  ): Promise<Tasks[Kind]["answer"]> {
    if (this.#isClosed) throw new Stopped(CLOSED);
    const thread = this.#begun();
    const id = this.#nextId++;
    return new Promise((resolve, reject) => {
      if (this.#pending.size === 0) this.#wait();
      this.#pending.set(id, { tell, resolve, reject });
      thread.ref();
      thread.postMessage({ id, kind, asked } satisfies Asked);
    });
  }

  /** Ends what is worked at, for that reason. */
  async stop(reason: Error): Promise<void> {
    const thread = this.#thread;
    this.#breakOff(reason);
    await thread?.terminate();
  }

  /** Takes no more, lets what was asked come to its end for some seconds, and ends the thread. */
  async close(): Promise<void> {
    this.#isClosed = true;
    for (const until = performance.now() + GRACE_MS; this.#pending.size > 0 && performance.now() < until; )
      await pause(20);
    await this.stop(new Stopped(CLOSED));
  }

  #begun(): Worker {
    if (this.#thread !== null) return this.#thread;
    const thread = new Worker(this.#options.file(), {
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_LIMIT_MB },
    });
    const broken = (reason: Error): void => {
      if (this.#thread === thread) this.#breakOff(reason);
    };
    thread.on("message", (said: Said) => this.#hear(said));
    thread.on("error", (error: NodeJS.ErrnoException) => broken(this.#inWords(error)));
    thread.on("exit", (code) => broken(new Error(`its thread ended with code ${code}`)));
    this.#thread = thread;
    return thread;
  }

  /** Waits for the next answer, from now on. */
  #wait(): void {
    const { limitMs } = this.#options;
    clearTimeout(this.#timer);
    if (limitMs === undefined) return;
    const late = (): void => {
      if (this.#pending.size > 0) void this.stop(new Error(`it took longer than ${limitMs / 1000} s`));
    };
    this.#timer = setTimeout(late, limitMs).unref();
  }

  /** A stopped thread may still send messages; nothing waits for them. */
  #hear(said: Said): void {
    const pending = this.#pending.get(said.id);
    if (said.kind === "news") {
      pending?.tell(said.news);
      return;
    }
    this.#pending.delete(said.id);
    this.#wait();
    if (this.#pending.size === 0) this.#thread?.unref();
    if (said.kind === "answer") pending?.resolve(said.answer);
    else if (said.kind === "unsaved") pending?.reject(new NotSaved(said.problem));
    else pending?.reject(new Error(said.reason));
  }

  #breakOff(reason: Error): void {
    this.#thread = null;
    const broken = [...this.#pending.values()];
    this.#pending.clear();
    clearTimeout(this.#timer);
    for (const { reject } of broken) reject(reason);
  }

  #inWords(error: NodeJS.ErrnoException): Error {
    return error.code === "ERR_WORKER_OUT_OF_MEMORY" ? new Error(this.#options.outOfMemory) : error;
  }
}

const CLOSED = "the server was closed";

/** A thread's file as `bundle.js` writes it: Node 20 runs no TypeScript, so from source, as in tests, it is in dist too. */
export function threadFile(name: "desk-worker" | "plan-worker"): URL {
  const here = import.meta.url.replace("/src/server/work/", "/dist/server/work/");
  return new URL(`../../${name}.js`, here);
}
