import type { AnswersHeld } from "./answers-held.js";
import type { Folder } from "./folder.js";
import type { Planner } from "./planner.js";
import type { Questions } from "./questions.js";

/** What the routes answer from. */
export interface Context {
  readonly folder: Folder;
  readonly planner: Planner;
  readonly questions: Questions;
  readonly answers: AnswersHeld;
  /** What a plan may take where the form does not say. */
  readonly seconds: number;
}
