import { reasonOf } from "../reading/index.js";
import type { PageAnswer } from "./page-answer.js";
import { type Place, placeText } from "./queue.js";
import { Stopped } from "./work/stopped.js";

export type HeldAnswer =
  | { readonly kind: "waiting"; readonly text: string }
  | { readonly kind: "answered"; readonly answer: PageAnswer }
  | { readonly kind: "broken"; readonly reason: string };

/** What is worked out, and how that stands. */
export interface Held {
  readonly title: string;
  readonly answer: HeldAnswer;
}

interface Entry {
  readonly title: string;
  /** Where it waits; null once it is answered. */
  place: Place<PageAnswer> | null;
  answer: HeldAnswer;
}

/** Queues the work, and tells in words how far it has come; null where too many wait. */
export type Begin = (tell: (text: string) => void) => Place<PageAnswer> | null;

/** Most that are held; the oldest goes first. */
const MOST_HELD = 50;

/** Answers that take plans, each held under its key for a while. */
export class AnswersHeld {
  readonly #held = new Map<string, Entry>();

  /**
   * Asks for an answer, which the promise waits for; null where too many wait. An answer that is being made is not
   * asked for again. If this one is stopped, the earlier answer stays.
   */
  ask(key: string, title: string, begin: Begin): Promise<void> | null {
    const before = this.#held.get(key);
    if (before !== undefined && before.place !== null) return before.place.done.then(nothing, nothing);
    const entry: Entry = { title, place: null, answer: { kind: "waiting", text: "Started." } };
    const place = begin((text) => {
      if (entry.place !== null) entry.answer = { kind: "waiting", text };
    });
    if (place === null) return null;
    entry.place = place;
    this.#hold(key, entry);
    return place.done.then(
      (answer) => {
        Object.assign(entry, { place: null, answer: { kind: "answered", answer } });
      },
      (error: unknown) => {
        const broken: HeldAnswer = { kind: "broken", reason: reasonOf(error) };
        const answer = error instanceof Stopped ? (before?.answer ?? broken) : broken;
        Object.assign(entry, { place: null, answer });
      },
    );
  }

  /** How an answer stands; null where it was not asked for. Whoever asks waits for it. */
  answer(key: string): Held | null {
    const entry = this.#held.get(key);
    if (entry === undefined) return null;
    entry.place?.look();
    const ahead = entry.place?.ahead() ?? 0;
    const { title, answer } = entry;
    return ahead > 0 ? { title, answer: { kind: "waiting", text: placeText(ahead) } } : { title, answer };
  }

  /** Ends the work on an answer that is waited for. */
  stop(key: string): void {
    this.#held.get(key)?.place?.stop();
  }

  #hold(key: string, entry: Entry): void {
    this.#held.delete(key);
    this.#held.set(key, entry);
    const finished = [...this.#held].filter(([, { place }]) => place === null);
    for (const [oldest] of finished.slice(0, Math.max(0, this.#held.size - MOST_HELD)))
      this.#held.delete(oldest);
  }
}

const nothing = (): void => undefined;
