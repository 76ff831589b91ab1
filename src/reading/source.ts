import { MOST } from "./limits.js";
import type { Position, Problem } from "./problem.js";
import { words } from "./wording.js";

/** A text file as read: its name as the user gave it, and its text. */
export interface Source {
  readonly file: string;
  readonly text: string;
}

/** The problem of a file that has more bytes than are read. */
export function tooLarge(file: string, size: number, most: number = MOST.bytes): Problem {
  return { file, line: 1, column: 1, ...words.tooLarge(size, most) };
}

/** Where in a value read from a file: the keys and list indexes that lead to it. */
export type Path = readonly (string | number)[];

/** A value as written, every scalar being its text. */
export type Written = string | readonly Written[] | { readonly [key: string]: Written };

/** What is written at a path, or stands there in a JSON; undefined where nothing does. */
export function writtenAt(value: Written | undefined, path: Path): Written | undefined;
export function writtenAt(value: unknown, path: Path): unknown;
export function writtenAt(value: unknown, path: Path): unknown {
  return path.reduce(stepInto, value);
}

/** The keys of the map at a path, in the order written; none where no map stands there. */
export function keysAt(value: Written | undefined, path: Path): string[] {
  const node = writtenAt(value, path);
  return isWrittenMap(node) ? Object.keys(node) : [];
}

export function isWrittenMap(node: Written | undefined): node is { readonly [key: string]: Written } {
  return typeof node === "object" && !Array.isArray(node);
}

function stepInto(node: unknown, step: string | number): unknown {
  if (typeof node !== "object" || node === null) return undefined;
  const isThere = Array.isArray(node) ? typeof step === "number" : Object.hasOwn(node, step);
  return isThere ? Reflect.get(node, step) : undefined;
}

/** Orders positions as a reader meets them in the file. */
export function inFileOrder(left: Position, right: Position): number {
  return left.line - right.line || left.column - right.column;
}
