import { randomUUID } from "node:crypto";
import { open, readdir, realpath, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import writeFileAtomic from "write-file-atomic";
import type { Problem } from "../reading/index.js";
import { carryOut, isAbout, type Move, moveTogether, notesIn } from "./commit.js";
import { codeOf, type Lock, LockTaken, lockFile } from "./lock.js";
import { readText } from "./read.js";
import { NOT_WRITTEN, words } from "./words.js";

/** A file was left as it was; the problem says why, and what to do. */
export class NotSaved extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(`${problem.file}: ${problem.what}. ${problem.remedy}`);
    this.problem = problem;
  }
}

/** The texts of some files in the order they were named, null for one that is not there. */
type Texts = readonly (string | null)[];

/**
 * Reads a file, null where there is none, and saves what `change` makes of it, whole or not at all, with no other
 * writer between. What `change` throws comes through, and nothing is saved. Throws `NotSaved` where the folder is
 * missing or may not be written, and where another writer does not finish.
 */
export async function changeFile(path: string, change: (text: string | null) => string): Promise<void> {
  await changeFiles([path], ([text = null]) => [change(text)]);
}

/**
 * The same with several files, of which all are saved or none, whenever the program is ended: what was begun is
 * finished before any of them is next read by `finishSaving` or written. Where `change` gives null nothing is saved.
 */
export async function changeFiles(
  paths: readonly string[],
  change: (texts: Texts) => readonly string[] | null,
): Promise<void> {
  const files = await Promise.all(paths.map((path) => realpath(path).catch(() => path)));
  const pathOf = (file: string) => paths[files.indexOf(file)] ?? file;
  const locks = await lockedWhole(files, pathOf);
  try {
    await Promise.all(files.map(sweep));
    const texts = change(await Promise.all(files.map((file) => textOf(file, pathOf(file)))));
    if (texts !== null) await replace(files, texts, { locks, pathOf });
  } finally {
    await release(locks);
  }
}

/**
 * Finishes in a folder what a program that was ended had begun to save together. Whoever reads calls it first; where
 * it cannot be done, as on a disk that may only be read, the files are as they were found.
 */
export async function finishSaving(folder: string): Promise<void> {
  await finish(folder).catch((error: unknown) => {
    if (!(error instanceof NotSaved)) throw error;
  });
}

async function finish(folder: string): Promise<void> {
  for (const { file, moves } of await notesIn(folder)) {
    const locks = await lockAll(
      moves.map(({ to }) => to),
      (each) => each,
    );
    try {
      // Whoever held the locks may have carried it out.
      const note = (await notesIn(folder)).find((each) => each.file === file);
      if (note !== undefined) carryOut(note);
    } catch (error) {
      throw notSaved(moves[0]?.to ?? file, error);
    } finally {
      await release(locks);
    }
  }
}

/** Locks the files, with nothing left to finish of them. */
async function lockedWhole(files: readonly string[], pathOf: (file: string) => string): Promise<Lock[]> {
  for (;;) {
    const locks = await lockAll(files, pathOf);
    const folders = [...new Set(files.map((file) => dirname(file)))];
    const notes = (await Promise.all(folders.map(notesIn))).flat();
    if (!notes.some((note) => isAbout(note, files))) return locks;
    await release(locks);
    for (const folder of folders) await finish(folder);
  }
}

/** Locks all files, in one order for all programs, or none. */
async function lockAll(files: readonly string[], pathOf: (file: string) => string): Promise<Lock[]> {
  const locks: Lock[] = [];
  for (const file of [...new Set(files)].sort()) {
    try {
      locks.push(await lockFile(file));
    } catch (error) {
      await release(locks);
      throw notSaved(pathOf(file), error);
    }
  }
  return locks;
}

async function release(locks: readonly Lock[]): Promise<void> {
  for (const lock of locks) await lock.release();
}

async function textOf(file: string, path: string): Promise<string | null> {
  const text = await readText(file).catch((error: unknown) => {
    if (codeOf(error) === "ENOENT") return null;
    throw notSaved(path, error);
  });
  if (text !== null && typeof text !== "string") throw new NotSaved({ ...text, ...placeOf(path) });
  return text;
}

interface Held {
  readonly locks: readonly Lock[];
  readonly pathOf: (file: string) => string;
}

/** Writes all texts beside their files, then moves them there. */
async function replace(
  files: readonly string[],
  texts: readonly string[],
  { locks, pathOf }: Held,
): Promise<void> {
  const moves = files.map((to): Move => ({ from: `${to}.${randomUUID().slice(0, 8)}.new`, to }));
  try {
    for (const [index, { from, to }] of moves.entries()) {
      await stage(from, to, texts[index] ?? "").catch((error: unknown) => {
        throw notSaved(pathOf(to), error);
      });
    }
    const held = await Promise.all(locks.map((lock) => lock.isHeld()));
    if (held.includes(false)) throw new NotSaved({ ...placeOf(pathOf(files[0] ?? "")), ...words.lockLost() });
    await moveAll(moves, pathOf);
  } catch (error) {
    // Once noted, it will be moved all the same.
    const notes = await notesIn(dirname(files[0] ?? ""));
    if (!notes.some((note) => isAbout(note, files)))
      await Promise.all(moves.map(({ from }) => rm(from, { force: true }).catch(() => undefined)));
    throw error;
  }
}

/** Writes a text whole and flushed beside the file whose place it will take, with that file's rights. */
async function stage(from: string, to: string, text: string): Promise<void> {
  const old = await stat(to).catch(() => null);
  if (old?.isDirectory() === true) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
  await writeFileAtomic(
    from,
    text,
    old === null ? {} : { mode: old.mode, chown: { uid: old.uid, gid: old.gid } },
  );
  // A disk that is full may take a part of a text without saying so.
  const { size } = await stat(from);
  if (size !== Buffer.byteLength(text)) throw Object.assign(new Error("cut short"), { code: "ENOSPC" });
}

async function moveAll(moves: readonly Move[], pathOf: (file: string) => string): Promise<void> {
  const [first, ...others] = moves;
  if (first === undefined) return;
  try {
    if (others.length > 0) await moveTogether(moves);
    else await rename(first.from, first.to);
    await flush(dirname(first.to));
  } catch (error) {
    throw notSaved(pathOf(first.to), error);
  }
}

/** Flushes what a folder's names stand for, where the system can. */
async function flush(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

/** What a program that was ended while it saved has left beside the file. */
const LEFT = /^(?:[0-9a-f]{8}\.new(?:\.\d{1,10})?|commit\.\d{1,10})$/;

/** Takes away what is left beside a file whose lock is held: nobody else is writing it. */
async function sweep(file: string): Promise<void> {
  const folder = dirname(file);
  const beginning = `${basename(file)}.`;
  const names = await readdir(folder).catch(() => []);
  const left = names.filter((name) => name.startsWith(beginning) && LEFT.test(name.slice(beginning.length)));
  await Promise.all(left.map((name) => rm(join(folder, name), { force: true }).catch(() => undefined)));
}

/** The problem behind a system's error; an error that a cook cannot mend stays as it is. */
function notSaved(path: string, error: unknown): unknown {
  if (error instanceof LockTaken)
    return new NotSaved({ ...placeOf(path), ...words.inUse(error.lock, error.holder) });
  const wording = NOT_WRITTEN[codeOf(error)]?.(dirname(path));
  return wording === undefined ? error : new NotSaved({ ...placeOf(path), ...wording });
}

function placeOf(file: string) {
  return { file, line: 1, column: 1 };
}
