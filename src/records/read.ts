import { open } from "node:fs/promises";
import { MOST, type Problem, tooLarge } from "../reading/index.js";
import { codeOf } from "./lock.js";
import { NOT_READ } from "./words.js";

/**
 * The text of a file that a user names, or the problem that it is larger than is read: then no more than `most` bytes
 * of it are taken in. Throws what the system says where there is no file to read.
 */
export async function readText(path: string, most: number = MOST.bytes): Promise<string | Problem> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    if (size > most) return tooLarge(path, size, most);
    // What has no size, such as a pipe, may still go on for ever.
    const pieces: Buffer[] = [];
    for await (const piece of file.createReadStream({ autoClose: false, end: most })) pieces.push(piece);
    const bytes = Buffer.concat(pieces);
    return bytes.length > most ? tooLarge(path, bytes.length, most) : bytes.toString("utf8");
  } finally {
    await file.close();
  }
}

/** The same: null where there is no such file, a problem where it cannot be read. */
export async function textAt(path: string, most?: number): Promise<string | Problem | null> {
  try {
    return await readText(path, most);
  } catch (error) {
    const code = codeOf(error);
    if (code === "ENOENT" || code === "ENOTDIR") return null;
    const wording = NOT_READ[code]?.();
    if (wording === undefined) throw error;
    return { file: path, line: 1, column: 1, ...wording };
  }
}
