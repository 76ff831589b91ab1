import type { MessagePort } from "node:worker_threads";
import type { Engines } from "../../allocation/index.js";
import { type Means, TASKS, type Tasks } from "./tasks.js";

/** What a thread is asked. */
export type Asked = {
  readonly [Kind in keyof Tasks]: { readonly kind: Kind; readonly asked: Tasks[Kind]["asked"] };
}[keyof Tasks];

/** What it says: any amount of news, then one answer or why there is none. */
export type Said =
  | { readonly kind: "news"; readonly news: unknown }
  | { readonly kind: "answer"; readonly answer: unknown }
  | { readonly kind: "broken"; readonly reason: string };

/** Does each task that comes through the port, with engines of its own, whose threads end with this one. */
export function serveTasks(port: MessagePort, engines: Engines): void {
  engines.warm();
  const say = (said: Said): void => port.postMessage(said);
  port.on("message", ({ kind, asked }: Asked) => {
    const work = TASKS[kind] as (asked: unknown, means: Means<unknown>) => Promise<unknown>;
    work(asked, { engines, tell: (news) => say({ kind: "news", news }) }).then(
      (answer) => say({ kind: "answer", answer }),
      (error: unknown) =>
        say({ kind: "broken", reason: error instanceof Error ? error.message : String(error) }),
    );
  });
}
