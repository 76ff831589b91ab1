import { type Wording, wordings } from "../reading/index.js";

export const words = wordings("records", {
  noFolder: (folder: string) => ({
    what: `there is no folder ${folder}`,
    remedy: "Make the folder first, or name one that is there",
  }),
  mayNotWrite: (folder: string) => ({
    what: `${folder} may not be written`,
    remedy: "Allow writing there, or name another folder",
  }),
  readOnly: (folder: string) => ({
    what: `the disk that holds ${folder} may only be read`,
    remedy: "Copy the folder to a disk that may be written, or let this one be written",
  }),
  folderOfThisName: () => ({
    what: "there is a folder of this name",
    remedy: "Move or rename that folder",
  }),
  diskFull: () => ({ what: "the disk is full", remedy: "Make room, then save again" }),
  longName: () => ({
    what: "the name is too long for this disk",
    remedy: "Give the scenario file, or its folder, a shorter name",
  }),
  linksInCircle: () => ({ what: "the links of this name lead in a circle", remedy: "Take the link away" }),
  faultyDisk: (folder: string) => ({
    what: `the disk that holds ${folder} does not answer as it should`,
    remedy: "Check the disk and its connection, then save again",
  }),
  mayNotRead: () => ({ what: "this file may not be read", remedy: "Allow reading it" }),
  isFolder: () => ({ what: "this is a folder, and no file", remedy: "Move or rename that folder" }),
  noAnswer: () => ({
    what: "the disk does not answer as it should",
    remedy: "Check the disk and its connection",
  }),
  inUse: (lock: string, holder: { readonly pid: number; readonly host: string } | null) => ({
    what:
      holder === null
        ? "another program is writing this file"
        : `another program is writing this file: process ${holder.pid} on ${holder.host.split(" ")[0]}`,
    remedy: `Wait until it is done, then save again. If no such program is running, take away ${lock}`,
  }),
  /** This program was held up for so long that another took its place. */
  lockLost: () => ({
    what: "saving took too long, and another program may have written meanwhile",
    remedy: "Save again",
  }),
});

/** What to say of a system's error where a file is saved, by its code, given the file's folder. */
export const NOT_WRITTEN: Readonly<Record<string, (folder: string) => Wording>> = {
  ENOENT: words.noFolder,
  ENOTDIR: words.noFolder,
  EACCES: words.mayNotWrite,
  EPERM: words.mayNotWrite,
  EROFS: words.readOnly,
  EISDIR: words.folderOfThisName,
  ENOSPC: words.diskFull,
  EDQUOT: words.diskFull,
  ENAMETOOLONG: words.longName,
  ELOOP: words.linksInCircle,
  EIO: words.faultyDisk,
  ESTALE: words.faultyDisk,
};

/** The same where it is read. */
export const NOT_READ: Readonly<Record<string, () => Wording>> = {
  EACCES: words.mayNotRead,
  EPERM: words.mayNotRead,
  EISDIR: words.isFolder,
  ENAMETOOLONG: words.longName,
  ELOOP: words.linksInCircle,
  EIO: words.noAnswer,
  ESTALE: words.noAnswer,
};
