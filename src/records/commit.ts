import { renameSync, unlinkSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { basename, dirname, join, relative, resolve } from "node:path";
import writeFileAtomic from "write-file-atomic";
import { codeOf } from "./lock.js";

/** A text written whole beside the file whose place it is to take. */
export interface Move {
  readonly from: string;
  readonly to: string;
}

/** What is to be moved together, all of it or nothing, as noted in a file. */
export interface Note {
  readonly file: string;
  readonly moves: readonly Move[];
}

const ENDING = ".commit";
/** How a text is called that waits beside its file. */
const WAITING = /\.[0-9a-f]{8}\.new$/;

/**
 * Moves all, or none: what is to be moved is noted first, and from the moment the note stands it will be moved, by
 * this program or, where it is ended, by the next. The files are to be locked.
 */
export async function moveTogether(moves: readonly Move[]): Promise<void> {
  const file = `${moves[0]?.to ?? ""}${ENDING}`;
  const folder = dirname(file);
  const named = moves.map(({ from, to }) => ({ from: relative(folder, from), to: relative(folder, to) }));
  await writeFileAtomic(file, JSON.stringify(named));
  carryOut({ file, moves });
}

/** At once, so that hardly anything can come between. What was moved before is there already. */
export function carryOut({ file, moves }: Note): void {
  for (const { from, to } of moves) {
    try {
      renameSync(from, to);
    } catch (error) {
      if (codeOf(error) !== "ENOENT") throw error;
    }
  }
  unlinkSync(file);
}

/** What is noted in a folder, and not yet carried out; nothing where the folder cannot be read. */
export async function notesIn(folder: string): Promise<Note[]> {
  const names = await readdir(folder).catch(() => []);
  const notes = names.filter((name) => name.endsWith(ENDING)).map((name) => noteIn(join(folder, name)));
  return (await Promise.all(notes)).filter((note) => note !== null);
}

/** Whether a note is about one of these files. */
export function isAbout({ moves }: Note, files: readonly string[]): boolean {
  return moves.some(({ to }) => files.some((file) => resolve(file) === resolve(to)));
}

/** Only what this program writes is believed: anything else that is called so is left alone. */
async function noteIn(file: string): Promise<Note | null> {
  const text = await readFile(file, "utf8").catch(() => "");
  const folder = dirname(file);
  let moves: unknown;
  try {
    moves = JSON.parse(text);
  } catch {
    return null;
  }
  if (!Array.isArray(moves) || moves.length === 0 || !moves.every(isMove)) return null;
  return { file, moves: moves.map(({ from, to }) => ({ from: join(folder, from), to: join(folder, to) })) };
}

function isMove(move: unknown): move is Move {
  if (typeof move !== "object" || move === null || !("from" in move) || !("to" in move)) return false;
  const { from, to } = move;
  if (typeof from !== "string" || typeof to !== "string") return false;
  return (
    dirname(from) === dirname(to) &&
    WAITING.test(from) &&
    from.startsWith(`${basename(to)}.`, from.length - basename(from).length)
  );
}
