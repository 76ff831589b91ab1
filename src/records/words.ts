import type { Wording } from "../reading/index.js";

/** What to say of a system's error, by its code, given the file's folder. */
export const BY_CODE: Readonly<Record<string, (folder: string) => Wording>> = {
  ENOENT: noFolder,
  ENOTDIR: noFolder,
  EACCES: mayNot,
  EPERM: mayNot,
  EROFS: (folder) => ({
    what: `the disk that holds ${folder} may only be read`,
    remedy: "Copy the folder to a disk that may be written, or let this one be written",
  }),
  EISDIR: () => ({ what: "there is a folder of this name", remedy: "Move or rename that folder" }),
  ENOSPC: diskFull,
  EDQUOT: diskFull,
  ENAMETOOLONG: () => ({
    what: "the name is too long for this disk",
    remedy: "Give the scenario file, or its folder, a shorter name",
  }),
  ELOOP: () => ({ what: "the links of this name lead in a circle", remedy: "Take the link away" }),
  EIO: faulty,
  ESTALE: faulty,
};

/** What to say where a file cannot be read. */
export const UNREADABLE: Readonly<Record<string, Wording>> = {
  EACCES: { what: "this file may not be read", remedy: "Allow reading it" },
  EPERM: { what: "this file may not be read", remedy: "Allow reading it" },
  EISDIR: { what: "this is a folder, and no file", remedy: "Move or rename that folder" },
  ENAMETOOLONG: {
    what: "the name is too long for this disk",
    remedy: "Give the scenario file, or its folder, a shorter name",
  },
  ELOOP: { what: "the links of this name lead in a circle", remedy: "Take the link away" },
  EIO: { what: "the disk does not answer as it should", remedy: "Check the disk and its connection" },
  ESTALE: { what: "the disk does not answer as it should", remedy: "Check the disk and its connection" },
};

export function inUse(lock: string, holder: { readonly pid: number; readonly host: string } | null): Wording {
  const who =
    holder === null
      ? "another program is writing this file"
      : `another program is writing this file: process ${holder.pid} on ${holder.host.split(" ")[0]}`;
  return {
    what: who,
    remedy: `Wait until it is done, then save again. If no such program is running, take away ${lock}`,
  };
}

/** This program was held up for so long that another took its place. */
export function lockLost(): Wording {
  return {
    what: "saving took too long, and another program may have written meanwhile",
    remedy: "Save again",
  };
}

function diskFull(): Wording {
  return { what: "the disk is full", remedy: "Make room, then save again" };
}

function faulty(folder: string): Wording {
  return {
    what: `the disk that holds ${folder} does not answer as it should`,
    remedy: "Check the disk and its connection, then save again",
  };
}

function noFolder(folder: string): Wording {
  return { what: `there is no folder ${folder}`, remedy: "Make the folder first, or name one that is there" };
}

function mayNot(folder: string): Wording {
  return { what: `${folder} may not be written`, remedy: "Allow writing there, or name another folder" };
}
