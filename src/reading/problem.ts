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

/** "file:line:column: what. Remedy." on one line. */
export function problemText({ file, line, column, what, remedy }: Problem): string {
  return `${file}:${line}:${column}: ${what}. ${remedy}`;
}
