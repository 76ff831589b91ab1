import { posix } from "node:path";
import { importsOf } from "./imports.js";

/** A file of src/: its path inside src/, and its text. */
export interface SourceFile {
  readonly file: string;
  readonly text: string;
}

/** Fewest equal lines, one after the other, that count as the same work done twice. */
export const TWIN_LINES = 12;
/** Most words of a comment. */
export const MOST_WORDS = 55;

/** Every set of files that import one another in a circle, imports of types alone included; each sorted, as one line. */
export function importCircles(files: readonly SourceFile[]): string[] {
  const known = new Set(files.map(({ file }) => file));
  const imports = new Map(
    files.map(({ file, text }) => {
      const named = importsOf(text).filter((name) => name.startsWith("."));
      const paths = named.map((name) => posix.join(posix.dirname(file), name).replace(/\.js$/, ".ts"));
      return [file, paths.filter((path) => known.has(path))];
    }),
  );
  const reached = new Map([...known].map((file) => [file, reachedFrom(file, imports)]));
  const circles = [...known].flatMap((file) => {
    const circle = [...(reached.get(file) ?? [])].filter((other) => reached.get(other)?.has(file));
    return circle.length === 0 ? [] : [circle.sort().join(" <-> ")];
  });
  return [...new Set(circles)].sort();
}

/** Every file that one imports, or that these import. */
function reachedFrom(file: string, imports: ReadonlyMap<string, readonly string[]>): Set<string> {
  const reached = new Set<string>();
  const open = [...(imports.get(file) ?? [])];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (reached.has(next)) continue;
    reached.add(next);
    open.push(...(imports.get(next) ?? []));
  }
  return reached;
}

interface Line {
  readonly file: string;
  readonly number: number;
  readonly text: string;
}

/** Every run of at least `TWIN_LINES` equal lines that stands twice: both places, and how long it is. */
export function twins(files: readonly SourceFile[]): string[] {
  const first = new Map<string, { readonly lines: readonly Line[]; readonly at: number }>();
  const found: string[] = [];
  for (const file of files) {
    const lines = linesOf(file);
    for (let at = 0; at + TWIN_LINES <= lines.length; at += 1) {
      const key = textOf(lines.slice(at, at + TWIN_LINES));
      const other = first.get(key);
      if (other === undefined) {
        first.set(key, { lines, at });
        continue;
      }
      if (other.lines === lines && other.at + TWIN_LINES > at) continue;
      let length = TWIN_LINES;
      while (isSame(other.lines[other.at + length], lines[at + length])) length += 1;
      found.push(`${place(other.lines[other.at])} and ${place(lines[at])}: ${length} lines`);
      at += length - 1;
    }
  }
  return found;
}

/** The lines that count: neither blank nor of an import. */
function linesOf({ file, text }: SourceFile): Line[] {
  const withoutImports = text.replace(/^(?:import|export)\b[^"';=(]*?\bfrom\s*"[^"]+";$/gm, (found) =>
    found.replace(/[^\n]/g, ""),
  );
  return withoutImports
    .split("\n")
    .map((line, index) => ({ file, number: index + 1, text: line.trim() }))
    .filter((line) => line.text !== "");
}

function textOf(lines: readonly Line[]): string {
  return lines.map(({ text }) => text).join("\n");
}

function isSame(one: Line | undefined, other: Line | undefined): boolean {
  return one !== undefined && one.text === other?.text;
}

function place(line: Line | undefined): string {
  return line === undefined ? "" : `src/${line.file}:${line.number}`;
}

/** Every comment of more than `MOST_WORDS` words: where it begins, and how many it has. */
export function longComments({ file, text }: SourceFile): string[] {
  const comments = text.matchAll(/^[ \t]*\/\*[\s\S]*?\*\/|(?:^[ \t]*\/\/.*(?:\n|$))+/gm);
  return [...comments].flatMap(({ 0: comment, index }) => {
    const words = comment.match(/[\p{L}\p{N}][^\s]*/gu)?.length ?? 0;
    const line = text.slice(0, index).split("\n").length;
    return words > MOST_WORDS ? [`src/${file}:${line} has a comment of ${words} words`] : [];
  });
}
