import {
  Lines,
  type Path,
  type Position,
  type Problem,
  type Source,
  withLineFeeds,
} from "../reading/index.js";
import { jsonEnd, jsonOffsets } from "./json-scan.js";
import { words } from "./words.js";

/** A JSON text read, which tells where values at some paths stand; or what is wrong with it. */
export type JsonText =
  | { readonly json: unknown; readonly places: (paths: readonly Path[]) => (path: Path) => Position }
  | { readonly problem: Problem };

export function readJson({ file, text: read }: Source): JsonText {
  // Some editors put a byte order mark before the text.
  const source = withLineFeeds({ file, text: read.replace(/^\uFEFF/, "") });
  const { text } = source;
  const lines = new Lines(source);
  try {
    const json: unknown = JSON.parse(text);
    const places = (paths: readonly Path[]) => {
      const offsetOf = jsonOffsets(text, paths);
      return (path: Path): Position => lines.at(offsetOf(path));
    };
    return { json, places };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const fault = text.trim() === "" ? words.emptyFile() : words.noJson();
    return { problem: { ...lines.at(jsonEnd(text)), ...fault, remedy: "" } };
  }
}

/** A path as a JSON pointer (RFC 6901). */
export function pointer(path: Path): string {
  return path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}
