import type { Path, Position, Problem, Source } from "../reading/index.js";

/** A JSON text read, which knows where each of its values stands; or what is wrong with it. */
export type JsonText =
  | { readonly json: unknown; readonly positionOf: (path: Path) => Position }
  | { readonly problem: Problem };

export function readJson({ file, text: read }: Source): JsonText {
  // Some editors put a byte order mark before the text.
  const text = read.replace(/^\uFEFF/, "");
  try {
    const json: unknown = JSON.parse(text);
    let found: { offsets: ReadonlyMap<string, number>; lines: readonly number[] } | undefined;
    const positionOf = (path: Path): Position => {
      found ??= { offsets: offsetsIn(text), lines: linesOf(text) };
      const { offsets, lines } = found;
      const known = path.map((_, steps) => offsets.get(pointer(path.slice(0, path.length - steps))));
      return placeAt(file, lines, known.find((offset) => offset !== undefined) ?? offsets.get("") ?? 0);
    };
    return { json, positionOf };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const offset = Number(
      /position (\d+)/.exec(error.message)?.[1] ?? (/end of JSON/.test(error.message) ? text.length : 0),
    );
    const what =
      text.trim() === "" ? "this file is empty, and no plan" : "from here on this is no JSON, and no plan";
    return { problem: { ...placeAt(file, linesOf(text), offset), what, remedy: "" } };
  }
}

/** A path as a JSON pointer (RFC 6901). */
export function pointer(path: Path): string {
  return path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** What stands at a path; undefined where nothing does. */
export function valueAtPath(json: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (node, step) =>
      typeof node === "object" && node !== null && Object.hasOwn(node, step)
        ? (node as Record<string | number, unknown>)[step]
        : undefined,
    json,
  );
}

/** An object or a list that is being read through. */
interface Open {
  readonly at: string;
  readonly isObject: boolean;
  /** The member whose value comes next. */
  key: string | null;
  index: number;
}

/** Where each value of a sound JSON text begins, by its pointer. Of a member that stands twice the last counts. */
function offsetsIn(text: string): ReadonlyMap<string, number> {
  const offsets = new Map<string, number>();
  const open: Open[] = [];
  let at = 0;
  while (at < text.length) {
    const character = text[at] ?? "";
    const within = open.at(-1);
    if (/[\s:]/.test(character)) at++;
    else if (character === ",") {
      at++;
      if (within !== undefined) Object.assign(within, { key: null, index: within.index + 1 });
    } else if (character === "}" || character === "]") {
      at++;
      open.pop();
    } else if (within?.isObject === true && within.key === null) {
      const end = stringEnd(text, at);
      within.key = JSON.parse(text.slice(at, end)) as string;
      at = end;
    } else {
      const path = within === undefined ? "" : within.at + pointer([within.key ?? within.index]);
      offsets.set(path, at);
      if (character === "{" || character === "[") {
        open.push({ at: path, isObject: character === "{", key: null, index: 0 });
        at++;
      } else if (character === '"') at = stringEnd(text, at);
      else while (at < text.length && !/[\s,\]}]/.test(text[at] ?? "")) at++;
    }
  }
  return offsets;
}

function stringEnd(text: string, start: number): number {
  let at = start + 1;
  while (text[at] !== '"') at += text[at] === "\\" ? 2 : 1;
  return at + 1;
}

/** The place of an offset, from where the lines begin. */
function placeAt(file: string, lines: readonly number[], offset: number): Position {
  const after = lines.findIndex((start) => start > offset);
  const line = after < 0 ? lines.length : after;
  return { file, line, column: offset - (lines[line - 1] ?? 0) + 1 };
}

function linesOf(text: string): number[] {
  return [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
}
