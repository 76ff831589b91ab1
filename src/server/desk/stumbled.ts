import { type Problem, problemOf, reasonOf } from "../../reading/index.js";
import { words } from "../words.js";

/** What is told of a file that the program itself stumbles over; why, is noted on stderr. */
export function stumbled(file: string, error: unknown): Problem {
  process.stderr.write(`${file}: ${reasonOf(error)}\n`);
  return problemOf(file, words.stumbled());
}
