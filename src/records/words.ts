import type { Wording } from "../reading/index.js";

/** What to say of a system's error, by its code, given the file's folder. */
export const BY_CODE: Readonly<Record<string, (folder: string) => Wording>> = {
  ENOENT: noFolder,
  ENOTDIR: noFolder,
  EACCES: mayNot,
  EPERM: mayNot,
  EROFS: mayNot,
  EISDIR: () => ({ what: "there is a folder of this name", remedy: "Move or rename that folder" }),
  ENOSPC: () => ({ what: "the disk is full", remedy: "Make room, then save again" }),
  ELOCKED: inUse,
};

export function inUse(): Wording {
  return { what: "another program is writing this file", remedy: "Wait until it is done, then save again" };
}

function noFolder(folder: string): Wording {
  return { what: `there is no folder ${folder}`, remedy: "Make the folder first, or name one that is there" };
}

function mayNot(folder: string): Wording {
  return { what: `${folder} may not be written`, remedy: "Allow writing there, or name another folder" };
}
