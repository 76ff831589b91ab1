import { dirname } from "node:path";
import type { Problem } from "../reading/index.js";
import { codeOf } from "./lock.js";
import { NotSaved } from "./save.js";
import { NOT_WRITTEN } from "./words.js";

/** What makes folders and moves files: where these miss something, it is a folder of the user's. */
const WRITING = ["mkdir", "mkdtemp", "rename"];

/** The problem behind an error of the disk, with what to do about it; null for any other error. */
export function diskProblem(error: unknown): Problem | null {
  if (error instanceof NotSaved) return error.problem;
  if (!(error instanceof Error)) return null;
  const path = "path" in error && typeof error.path === "string" ? error.path : null;
  const isOurs =
    codeOf(error) === "ENOENT" && !("syscall" in error && WRITING.includes(String(error.syscall)));
  const wording = isOurs || path === null ? undefined : NOT_WRITTEN[codeOf(error)]?.(dirname(path));
  return wording === undefined || path === null ? null : { file: path, line: 1, column: 1, ...wording };
}
