import { randomUUID } from "node:crypto";
import { type Place, placeText, type Queue } from "./queue.js";
import type { PageAnswer, Tasks } from "./work/tasks.js";

/** A form that takes plans to answer. */
export type FormTask = {
  readonly [Kind in "forms" | "rest"]: { readonly kind: Kind; readonly asked: Tasks[Kind]["asked"] };
}["forms" | "rest"];

export type HeldAnswer =
  | { readonly kind: "waiting"; readonly text: string }
  | { readonly kind: "answered"; readonly page: PageAnswer }
  | { readonly kind: "broken"; readonly reason: string };

interface Held {
  readonly title: string;
  readonly place: Place<PageAnswer>;
  answer: HeldAnswer;
}

/** Most that are held; the oldest goes first. */
const MOST_HELD = 50;

/** Answers to forms that take plans, each held under a name of its own for a while. */
export class AnswersHeld {
  readonly #queue: Queue;
  readonly #held = new Map<string, Held>();

  constructor(queue: Queue) {
    this.#queue = queue;
  }

  /** Takes a form's work; null when too many wait. */
  ask(title: string, { kind, asked }: FormTask): { id: string; done: Promise<void> } | null {
    const place = this.#queue.add(kind, asked);
    if (place === null) return null;
    const id = randomUUID();
    const held: Held = { title, place, answer: { kind: "waiting", text: "Started." } };
    this.#held.set(id, held);
    const [oldest] = this.#held.keys();
    if (this.#held.size > MOST_HELD && oldest !== undefined) this.#held.delete(oldest);
    const done = place.done.then(
      (page) => {
        held.answer = { kind: "answered", page };
      },
      (error: unknown) => {
        held.answer = { kind: "broken", reason: error instanceof Error ? error.message : String(error) };
      },
    );
    return { id, done };
  }

  /** How an answer stands; null where there is none of that name. Whoever asks waits for it. */
  answer(id: string): { readonly title: string; readonly answer: HeldAnswer } | null {
    const held = this.#held.get(id);
    if (held === undefined) return null;
    held.place.look();
    const ahead = held.place.ahead();
    const { title, answer } = held;
    return ahead > 0 ? { title, answer: { kind: "waiting", text: placeText(ahead) } } : { title, answer };
  }

  /** Ends the work on an answer that is waited for. */
  stop(id: string): void {
    this.#held.get(id)?.place.stop();
  }
}
