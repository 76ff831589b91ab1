import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";

/** A file of an output folder: its path inside it, with forward slashes, and its content. */
export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** Lists what this program wrote into the folder, so that a later run knows what it may replace. */
const CONTENTS = ".trim-to-use";

/**
 * Writes the files into `folder` in place of an earlier output, all or none: they are written beside it and
 * moved there when all are done, without giving an interrupt the chance to come between. Throws where
 * `folderObstacle` finds something.
 */
export function writeFolder(folder: string, files: readonly OutputFile[]): void {
  const obstacle = folderObstacle(folder);
  if (obstacle !== null) throw new Error(obstacle);
  try {
    writeBeside(resolve(folder), files);
  } catch (error) {
    // Of the folder that was asked for, not of the one beside it.
    throw error instanceof Error && "path" in error ? Object.assign(error, { path: folder }) : error;
  }
}

function writeBeside(target: string, files: readonly OutputFile[]): void {
  makeFolder(dirname(target));
  const fresh = mkdtempSync(join(dirname(target), `.${basename(target)}-`));
  const stale = `${fresh}-old`;
  try {
    chmodSync(fresh, 0o777 & ~process.umask());
    const contents = { path: CONTENTS, content: files.map(({ path }) => `${path}\n`).join("") };
    for (const { path, content } of [contents, ...files]) {
      makeFolder(dirname(join(fresh, path)));
      writeFileSync(join(fresh, path), content);
    }
    if (existsSync(target)) renameSync(target, stale);
    try {
      renameSync(fresh, target);
    } catch (error) {
      if (existsSync(stale)) renameSync(stale, target);
      throw error;
    }
  } finally {
    rmSync(fresh, { recursive: true, force: true });
    rmSync(stale, { recursive: true, force: true });
  }
}

/** With all above it. Where none can be made, as in /proc, Node's own way of doing so may go on for ever. */
function makeFolder(path: string): void {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  mkdirSync(path);
}

/** Why the folder cannot be written, and what to do: it is a file, or holds files that are no earlier output. */
export function folderObstacle(folder: string): string | null {
  if (!existsSync(folder)) {
    const above = nearestAbove(resolve(folder));
    return statSync(above).isDirectory() ? null : `${above} is a file, and holds no folder. Name another.`;
  }
  try {
    const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
    const present = entries
      .filter((entry) => !entry.isDirectory())
      .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"));
    const ours = present.includes(CONTENTS) ? readFileSync(join(folder, CONTENTS), "utf8").split("\n") : [];
    const stranger = present.find((path) => path !== CONTENTS && !ours.includes(path));
    return stranger === undefined
      ? null
      : `${folder} holds ${stranger}, which is no page of an earlier plan. Name an empty folder or a new one.`;
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOTDIR")
      return `${folder} is a file. Name a folder.`;
    throw error;
  }
}

/** The nearest folder above, or what stands in its place. */
function nearestAbove(path: string): string {
  const above = dirname(path);
  return existsSync(above) || above === path ? above : nearestAbove(above);
}
