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
