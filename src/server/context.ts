import type { AnswersHeld } from "./answers-held.js";
import type { DeskTasks } from "./desk/tasks.js";
import type { Folder } from "./folder.js";
import type { Planner } from "./planner.js";
import type { Queue } from "./queue.js";
import type { TaskThread } from "./work/task-thread.js";

/** What the routes answer from. */
export interface Context {
  readonly folder: Folder;
  /** Reads files and writes pages that need no plan to be made. */
  readonly desk: TaskThread<DeskTasks>;
  readonly planner: Planner;
  /** Where whatever takes plans has its turn. */
  readonly queue: Queue;
  readonly answers: AnswersHeld;
  /** What a plan may take where the form does not say. */
  readonly seconds: number;
}
