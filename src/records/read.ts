import { open } from "node:fs/promises";
import { MOST, type Problem, tooLarge } from "../reading/index.js";

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

/** The same, or null where there is no file that may be read. */
export function textAt(path: string, most?: number): Promise<string | Problem | null> {
  return readText(path, most).catch(() => null);
}
