import { asLine } from "./clean.js";
import { MOST } from "./limits.js";

/** A place in a text file; lines and columns count from 1. */
export interface Position {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** What people read of a problem: what is wrong, and what to write instead. */
export interface Said {
  readonly what: string;
  readonly remedy: string;
}

/** The words of a problem without its place, and the code that programs know it by, such as `kitchen/no-unit`. */
export interface Wording extends Said {
  readonly code: string;
}

/** Something wrong in what was read, and where. */
export interface Problem extends Position, Wording {}

/** What is wrong with a file as a whole, told at its start. */
export function problemOf(file: string, { code, what, remedy }: Wording): Problem {
  return { file, line: 1, column: 1, code, what, remedy };
}

/** What words are made by, of the values they speak of; the remedy is left out where only the caller knows it. */
type Saying = (...values: never[]) => Partial<Said> & Pick<Said, "what">;

type Worded<S extends Saying> = (
  ...values: Parameters<S>
) => ReturnType<S> extends Said ? Wording : Omit<Wording, "remedy">;

/** The wordings of a room, each with its code: `noUnit` of `kitchen` is `kitchen/no-unit`. */
export function wordings<W extends Record<string, Saying>>(room: string, sayings: W) {
  const worded = Object.entries(sayings).map(([name, say]) => {
    const code = `${room}/${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
    return [name, (...values: never[]) => ({ code, ...say(...values) })];
  });
  return Object.fromEntries(worded) as { readonly [N in keyof W]: Worded<W[N]> };
}

/** Whether what a parser gave is the words of a problem rather than a value. */
export function isWording(parsed: unknown): parsed is Wording {
  return typeof parsed === "object" && parsed !== null && "what" in parsed && "remedy" in parsed;
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
