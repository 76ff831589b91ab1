import type { ReadFile, ScenarioFile } from "./folder.js";
import { type Place, placeText, type Queue } from "./queue.js";
import type { QuestionSlug } from "./work/questions.js";

/** A question that takes many plans to answer. */
export interface Question {
  /** In the address. */
  readonly slug: QuestionSlug;
  readonly title: string;
  readonly about: string;
}

export const QUESTIONS: readonly Question[] = [
  {
    slug: "tradeoff",
    title: "Waste against spend",
    about: "The plans from least waste to least spend that no other beats on both.",
  },
  {
    slug: "worth",
    title: "What it is worth",
    about:
      "What each dish, item and part saves or costs: the scenario is planned again with one thing changed.",
  },
];

/** How long an answer may take, as offered to whoever asks; the first unless another is chosen. */
export const QUESTION_SECONDS = [60, 300] as const;

export type Answer =
  | { readonly kind: "waiting"; readonly text: string }
  | { readonly kind: "answered"; readonly html: string }
  | { readonly kind: "broken"; readonly reason: string };

const MOST_HELD = 20;

/** Has questions answered in turn with the plans, and holds the answers. */
export class Questions {
  readonly #queue: Queue;
  readonly #answers = new Map<string, Answer>();
  readonly #places = new Map<string, Place<string>>();

  constructor(queue: Queue) {
    this.#queue = queue;
  }

  /** How a question on a scenario stands; null where it was not asked. Whoever asks waits for it. */
  answer({ slug }: Question, { hash }: ScenarioFile): Answer | null {
    const key = `${slug} ${hash}`;
    const place = this.#places.get(key);
    place?.look();
    const ahead = place?.ahead() ?? 0;
    if (ahead > 0) return { kind: "waiting", text: placeText(ahead) };
    return this.#answers.get(key) ?? null;
  }

  /** Takes a question, or says no when too many wait. What is being answered is not asked again. */
  ask({ slug }: Question, { hash, texts }: ReadFile, seconds: number): boolean {
    const key = `${slug} ${hash}`;
    if (this.#places.has(key)) return true;
    const tell = (text: string): void => this.#tell(key, text);
    const place = this.#queue.add("question", { slug, file: texts, seconds }, { tell });
    if (place === null) return false;
    this.#places.set(key, place);
    this.#tell(key, "Started.");
    place.done.then(
      (html) => this.#hold(key, { kind: "answered", html }),
      (error: unknown) =>
        this.#hold(key, { kind: "broken", reason: error instanceof Error ? error.message : String(error) }),
    );
    return true;
  }

  /** Ends a question that is waited for. */
  stop({ slug }: Question, { hash }: ScenarioFile): void {
    this.#places.get(`${slug} ${hash}`)?.stop();
  }

  #tell(key: string, text: string): void {
    if (this.#places.has(key)) this.#answers.set(key, { kind: "waiting", text });
  }

  #hold(key: string, answer: Answer): void {
    this.#places.delete(key);
    this.#answers.delete(key);
    this.#answers.set(key, answer);
    const finished = [...this.#answers].filter(([, { kind }]) => kind !== "waiting");
    for (const [oldest] of finished.slice(0, -MOST_HELD)) this.#answers.delete(oldest);
  }
}
