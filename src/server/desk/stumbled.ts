import { type Problem, reasonOf } from "../../reading/index.js";

/** What is told of a file that the program itself stumbles over; why, is noted on stderr. */
export function stumbled(file: string, error: unknown): Problem {
  process.stderr.write(`${file}: ${reasonOf(error)}\n`);
  const what = "the program stumbles over this file, which is our fault";
  return { file, line: 1, column: 1, what, remedy: "Undo what was written last, and tell us what it was" };
}
