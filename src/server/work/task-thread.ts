import { Worker } from "node:worker_threads";
import type { Said } from "./serve-tasks.js";
import type { Tasks } from "./tasks.js";

/** So much a plan may take of memory in its thread; the engines have their own. */
const HEAP_LIMIT_MB = 1024;

/** The thread's file; Node 20 runs no TypeScript, so from source, as in tests, the built one is loaded. */
export function taskFile(): URL {
  return new URL("./task-worker.js", import.meta.url.replace("/src/server/work/", "/dist/server/work/"));
}

/**
 * A thread in which plans are made, so that reading, building models and writing pages keep nobody else waiting. One
 * task at a time; what is not wanted any more is ended with its thread, and the next has a new one.
 */
export class TaskThread {
  readonly #file: () => URL;
  #thread: Worker | null = null;
  #end: (reason: Error) => void = () => undefined;

  /** `file` names the file that the next thread runs. */
  constructor(file: () => URL) {
    this.#file = file;
  }

  /** Starts it ahead of the first task. */
  warm(): void {
    this.#begun().unref();
  }

  run<Kind extends keyof Tasks>(
    kind: Kind,
    asked: Tasks[Kind]["asked"],
    tell: (news: Tasks[Kind]["news"]) => void,
  ): Promise<Tasks[Kind]["answer"]> {
    const thread = this.#begun();
    return new Promise((resolve, reject) => {
      const done = (): void => {
        thread.off("message", hear);
        thread.unref();
        this.#end = () => undefined;
      };
      const hear = (said: Said): void => {
        if (said.kind === "news") tell(said.news as Tasks[Kind]["news"]);
        else {
          done();
          if (said.kind === "answer") resolve(said.answer as Tasks[Kind]["answer"]);
          else reject(new Error(said.reason));
        }
      };
      this.#end = (reason) => {
        done();
        reject(reason);
      };
      thread.on("message", hear);
      thread.ref();
      thread.postMessage({ kind, asked });
    });
  }

  /** Ends what is worked at, for that reason. */
  async stop(reason: Error): Promise<void> {
    const thread = this.#thread;
    this.#thread = null;
    this.#end(reason);
    await thread?.terminate();
  }

  #begun(): Worker {
    if (this.#thread !== null) return this.#thread;
    const thread = new Worker(this.#file(), {
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: HEAP_LIMIT_MB },
    });
    const broken = (reason: Error): void => {
      if (this.#thread !== thread) return;
      this.#thread = null;
      this.#end(reason);
    };
    thread.on("error", (error: NodeJS.ErrnoException) => broken(inWords(error)));
    thread.on("exit", (code) => broken(new Error(`its thread ended with code ${code}`)));
    this.#thread = thread;
    return thread;
  }
}

function inWords(error: NodeJS.ErrnoException): Error {
  return error.code === "ERR_WORKER_OUT_OF_MEMORY"
    ? new Error(
        "it takes more memory than there is for one plan. Plan fewer services, or fewer dishes, in one scenario",
      )
    : error;
}
