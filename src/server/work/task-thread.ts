import { Worker } from "node:worker_threads";
import { NotSaved } from "../../records/index.js";
import type { Asked, Said, TaskList } from "./serve-tasks.js";

/** So much a task may take of memory in its thread; engines have their own. */
const HEAP_LIMIT_MB = 1024;

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
  readonly #file: () => URL;
  readonly #pending = new Map<number, Pending>();
  #thread: Worker | null = null;
  #asked = 0;

  /** `file` names the file that the next thread runs. */
  constructor(file: () => URL) {
    this.#file = file;
  }

  /** Starts it ahead of the first task. */
  warm(): void {
    this.#begun().unref();
  }

  run<Kind extends keyof Tasks & string>(
    kind: Kind,
    asked: Tasks[Kind]["asked"],
    tell: (news: Tasks[Kind]["news"]) => void = () => undefined,
  ): Promise<Tasks[Kind]["answer"]> {
    const thread = this.#begun();
    const id = this.#asked++;
    return new Promise((resolve, reject) => {
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

  #begun(): Worker {
    if (this.#thread !== null) return this.#thread;
    const thread = new Worker(this.#file(), {
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_LIMIT_MB },
    });
    const broken = (reason: Error): void => {
      if (this.#thread === thread) this.#breakOff(reason);
    };
    thread.on("message", (said: Said) => this.#hear(said));
    thread.on("error", (error: NodeJS.ErrnoException) => broken(inWords(error)));
    thread.on("exit", (code) => broken(new Error(`its thread ended with code ${code}`)));
    this.#thread = thread;
    return thread;
  }

  /** What a thread says that was stopped meanwhile is of nothing pending. */
  #hear(said: Said): void {
    const pending = this.#pending.get(said.id);
    if (said.kind === "news") {
      pending?.tell(said.news);
      return;
    }
    this.#pending.delete(said.id);
    if (this.#pending.size === 0) this.#thread?.unref();
    if (said.kind === "answer") pending?.resolve(said.answer);
    else if (said.kind === "unsaved") pending?.reject(new NotSaved(said.problem));
    else pending?.reject(new Error(said.reason));
  }

  #breakOff(reason: Error): void {
    this.#thread = null;
    const broken = [...this.#pending.values()];
    this.#pending.clear();
    for (const { reject } of broken) reject(reason);
  }
}

/** A thread's file as `bundle.js` writes it: Node 20 runs no TypeScript, so from source, as in tests, it is in dist too. */
export function threadFile(name: "desk-worker" | "plan-worker"): URL {
  const here = import.meta.url.replace("/src/server/work/", "/dist/server/work/");
  return new URL(`../../${name}.js`, here);
}

function inWords(error: NodeJS.ErrnoException): Error {
  return error.code === "ERR_WORKER_OUT_OF_MEMORY"
    ? new Error(
        "it takes more memory than there is for one plan. Plan fewer services, or fewer dishes, in one scenario",
      )
    : error;
}
