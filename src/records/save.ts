import { access, constants, readFile, realpath } from "node:fs/promises";
import { dirname } from "node:path";
import { lock } from "proper-lockfile";
import writeFileAtomic from "write-file-atomic";
import type { Problem } from "../reading/index.js";
import * as words from "./words.js";

/** A file was left as it was; the problem says why, and what to do. */
export class NotSaved extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(`${problem.file}: ${problem.what}. ${problem.remedy}`);
    this.problem = problem;
  }
}

/** A lock whose holder has not been heard of for so long is taken over: its program has ended. */
const STALE_MS = 10_000;
/** Waiting for another writer: some seconds in all. */
const RETRIES = { retries: 60, factor: 1.2, minTimeout: 20, maxTimeout: 200, randomize: true };

/**
 * Writes a file whole or not at all: the text is written beside it, flushed to the disk, and takes the file's
 * place in one step. Throws `NotSaved` where the folder is missing or may not be written.
 */
export async function saveFile(path: string, text: string): Promise<void> {
  try {
    await writeFileAtomic(path, text);
  } catch (error) {
    throw notSaved(path, error);
  }
}

/**
 * Reads a file, or null where there is none, and saves what `change` makes of it, while no other writer can come
 * between. What `change` throws comes through, and nothing is saved. Throws `NotSaved` as `saveFile` does, and
 * where another writer does not finish.
 */
export async function changeFile(path: string, change: (text: string | null) => string): Promise<void> {
  const file = await realpath(path).catch(() => path);
  let isLost = false;
  const onCompromised = () => {
    isLost = true;
  };
  const options = { realpath: false, stale: STALE_MS, retries: RETRIES, onCompromised };
  const release = await access(dirname(file), constants.W_OK)
    .then(() => lock(file, options))
    .catch((error: unknown) => {
      throw notSaved(path, error);
    });
  try {
    const text = await readFile(file, "utf8").catch((error: unknown) => {
      if (codeOf(error) === "ENOENT") return null;
      throw notSaved(path, error);
    });
    const changed = change(text);
    if (isLost) throw new NotSaved({ ...placeOf(path), ...words.inUse() });
    await saveFile(file, changed);
  } finally {
    if (!isLost) await release();
  }
}

/** The problem behind a system's error; an error that a cook cannot mend stays as it is. */
function notSaved(path: string, error: unknown): unknown {
  const wording = words.BY_CODE[codeOf(error)]?.(dirname(path));
  return wording === undefined ? error : new NotSaved({ ...placeOf(path), ...wording });
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}

function placeOf(file: string) {
  return { file, line: 1, column: 1 };
}
