import type { MessagePort } from "node:worker_threads";
import { type Problem, reasonOf } from "../../reading/index.js";
import { diskProblem } from "../../records/index.js";

/** A task that is given to a thread: all of it can be copied there and back. */
export interface Task<Asked, News, Answer> {
  readonly asked: Asked;
  /** What is told on the way. */
  readonly news: News;
  readonly answer: Answer;
}

/** The tasks of a thread, by name. */
export type TaskList = Readonly<Record<string, Task<unknown, unknown, unknown>>>;

/** How each task of a list is done. */
export type Works<Tasks extends TaskList> = {
  readonly [Kind in keyof Tasks]: (
    asked: Tasks[Kind]["asked"],
    tell: (news: Tasks[Kind]["news"]) => void,
  ) => Promise<Tasks[Kind]["answer"]>;
};

/** What a thread is asked; `id` comes back with all that it says of it. */
export interface Asked {
  readonly id: number;
  readonly kind: string;
  readonly asked: unknown;
}

/** What it says: any amount of news, then one answer or why there is none. */
export type Said = { readonly id: number } & (
  | { readonly kind: "news"; readonly news: unknown }
  | { readonly kind: "answer"; readonly answer: unknown }
  | { readonly kind: "unsaved"; readonly problem: Problem }
  | { readonly kind: "broken"; readonly reason: string }
);

/** Does each task that comes through the port. */
export function serveTasks<Tasks extends TaskList>(port: MessagePort, works: Works<Tasks>): void {
  const say = (said: Said): void => port.postMessage(said);
  port.on("message", ({ id, kind, asked }: Asked) => {
    const work = works[kind] as (asked: unknown, tell: (news: unknown) => void) => Promise<unknown>;
    const tell = (news: unknown): void => say({ id, kind: "news", news });
    const done = (async () => work(asked, tell))();
    done.then(
      (answer) => say({ id, kind: "answer", answer }),
      (error: unknown) => {
        const problem = diskProblem(error);
        if (problem === null) say({ id, kind: "broken", reason: reasonOf(error) });
        else say({ id, kind: "unsaved", problem });
      },
    );
  });
}
