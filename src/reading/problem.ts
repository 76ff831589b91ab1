import { asLine } from "./clean.js";
import { MOST } from "./limits.js";

/** A place in a text file; lines and columns count from 1. */
export interface Position {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** Something wrong in what was read: where, what, and what to write instead. */
export interface Problem extends Position {
  readonly what: string;
  readonly remedy: string;
}

/** What is said of anything thrown. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** A line for each problem, and one for those that are too many to be shown. */
export function problemLines(problems: readonly Problem[]): string[] {
  const rest = problems.length - MOST.problems;
  const more = rest > 0 ? [`and ${rest} more; put these right first`] : [];
  return [...problems.slice(0, MOST.problems).map(problemText), ...more];
}

/** "file:line:column: what. Remedy." on one line. */
export function problemText({ file, line, column, what, remedy }: Problem): string {
  return asLine(`${file}:${line}:${column}: ${what}. ${remedy}`);
}
